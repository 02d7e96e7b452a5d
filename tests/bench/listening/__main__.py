"""`python -m tests.bench.listening`: the tables, in plain lines."""

from __future__ import annotations

import random
from collections.abc import Sequence

import click
import numpy as np

from tests.bench.listening.forms import Form, forms
from tests.bench.listening.index import index
from tests.bench.listening.recognised import score
from tests.bench.listening.timing import milliseconds, pace_of
from voicecoach import model_store, phrasebook
from voicecoach.hear.decodes import MAIN
from voicecoach.hear.recogniser import Recogniser
from voicecoach.speak.voice import DEFAULT_VOICE, Voice

RATES = (80, 100, 120, 140, 160, 180, 220, 260, 300, 350)
NOISE_DB = (10, 5, 0)
VOICES = (
    "gmw/en-gb-x-rp",
    "gmw/en",
    "gmw/en-us",
    "gmw/en-gb-scotland",
    "en-us+f2",
    "en-us+f3",
    "en-us+klatt4",
)
WANTED = 0.98


@click.command()
@click.option("--voice", "voices", multiple=True, help="Recognise these voices instead of the default one.")
@click.option("--every", default=1, help="Speak only every so many-th sentence.")
@click.option("--skip", multiple=True, type=click.Choice(["recogniser", "index", "pace"]))
def main(voices: tuple[str, ...], every: int, skip: tuple[str, ...]) -> None:
    """Measure how well the voice is understood, and how fast it speaks."""
    spoken = forms()[::every]
    if "pace" not in skip:
        _pace(spoken)
    if "index" not in skip:
        _index(random.Random(6).sample(spoken, min(8, len(spoken))))
    if "recogniser" not in skip:
        reached = [_recognised(each, spoken) for each in voices or (DEFAULT_VOICE,)]
        raise SystemExit(0 if all(reached) else 1)


def _pace(spoken: Sequence[Form]) -> None:
    texts = [form.text for form in spoken[:40]]
    with Voice() as voice:
        voice.render("Ready.")
        took = milliseconds(voice, texts)
        again = np.median(milliseconds(voice, texts))
        print(
            f"A sentence is made in {np.median(took):.0f} ms, "
            f"95 of 100 within {np.quantile(took, 0.95):.0f} ms."
        )
        print(f"One said before takes {again:.1f} ms.")
        for rate in RATES:
            voice.words_per_minute = rate
            found = pace_of(voice, texts)
            print(
                f"Asked for {rate} words a minute: measured {found.words_per_minute:.0f}, "
                f"{100 * found.gap_share:.0f} % of it gaps, the longest sentence {found.longest_s:.1f} s."
            )


def _index(spoken: Sequence[Form]) -> None:
    texts = [form.text for form in spoken]
    print("Intelligibility index (STOI) in outdoor noise, at", ", ".join(f"{each} dB" for each in NOISE_DB))
    for name in VOICES:
        with Voice(voice=name) as voice:
            print(f"{name}:", ", ".join(f"{index(voice, texts, each):.2f}" for each in NOISE_DB))
    with Voice() as voice:
        for rate in RATES[::2]:
            voice.words_per_minute = rate
            found = ", ".join(f"{index(voice, texts, each):.2f}" for each in NOISE_DB)
            print(f"{DEFAULT_VOICE} at {rate} words a minute: {found}")


def _recognised(name: str, spoken: Sequence[Form]) -> bool:
    """Print what the recogniser makes of a voice; True when hours and distances reach what is wanted."""
    # what is scored is the main decode's words, so the others need not listen
    recogniser = Recogniser(model_store.model_path(), phrasebook.load(), (MAIN,))
    with Voice(voice=name) as voice:
        found = score(voice, recogniser, spoken)
    names, hours, distances = (right / found.said for right in (found.names, found.hours, found.distances))
    print(
        f"{name}: of {found.said} sentences, {names:.1%} of names, {hours:.1%} of hours "
        f"and {distances:.1%} of distances are right."
    )
    for said, heard in found.wrong:
        print(f"  said: {said} heard: {heard}")
    if found.confused:
        print("  confused:", ", ".join(f"{piece} ({count})" for piece, count in found.confused))
    return min(hours, distances) >= WANTED


if __name__ == "__main__":
    main()
