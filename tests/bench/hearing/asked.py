"""How well the player's lines are heard, asked about and set: python -m tests.bench.hearing.asked.

Every sentence of the templates' section `lines` by every voice of its part that is here.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from importlib import resources
from typing import Any, Literal

import click
import yaml
from pydantic import TypeAdapter

from tests.bench.hearing import corpus
from tests.bench.hearing.corpus import Clip
from tests.bench.hearing.engines import available
from tests.bench.hearing.lines import Line, Part
from tests.bench.hearing.noise import CONDITIONS, Condition
from tests.bench.hearing.trials import Listener
from tests.bench.hearing.voices import VOICES
from voicecoach import phrasebook
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.values import Heard
from voicecoach.model_store import model_path
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Expected, Note, Ranked

NOTE: TypeAdapter[Note] = TypeAdapter(Note)
Came = Literal["right", "wrong", "asked", "dropped"]


def said(part: Part) -> list[Line]:
    """The part's sentences, each with the note that it makes."""
    book = yaml.safe_load((resources.files(__package__) / "templates.yaml").read_text(encoding="utf-8"))
    return [
        Line(part=part, form="free", text=one["say"], meaning=_meaning(one))
        for one in book["lines"]
        if one["part"] == part
    ]


def _meaning(template: dict[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in template.items() if name not in ("part", "say")}


def came_of(understanding: Understanding, heard: tuple[Heard, ...], meaning: Mapping[str, object]) -> Came:
    """What the program makes of it: the very note that was meant, another, a question, or nothing."""
    came: Came = "dropped"
    for one in heard:
        read = understanding.read(one, Expected())
        if isinstance(read, Ranked) and read.doubt is None:
            return "right" if read.notes[0] == NOTE.validate_python(meaning) else "wrong"
        if isinstance(read, Ranked) or read.why != "chatter":
            came = "asked"
    return came


@click.command()
@click.option("--part", type=click.Choice(["tuning", "scored"]), default="scored", show_default=True)
@click.option(
    "--condition", multiple=True, type=click.Choice(CONDITIONS), default=("clean", "outdoors 10 dB")
)
def main(part: Part, condition: tuple[Condition, ...]) -> None:
    """Speak what isn't spoken yet, listen, and print a line for each condition and kind of voice."""
    book = phrasebook.load()
    understanding = Understanding(book)
    ear = Ear(Recogniser(model_path(), book), lambda text: understanding.is_final(text, Expected()))
    voices = [voice for voice in VOICES if voice.part == part and available(voice.engine)]
    clips = [Clip(voice, line, 1.0) for voice in voices for line in said(part)]
    corpus.complete(clips)
    for one in condition:
        for natural in (True, False):
            counts: Counter[Came] = Counter()
            for clip in clips:
                if clip.voice.natural == natural and clip.line.meaning is not None:
                    trial = Listener(ear, []).listen(clip, one)
                    came = came_of(understanding, trial.heard, clip.line.meaning)
                    counts[came] += 1
                    if came != "right":
                        print(f"  {came}: {clip.voice.key}, {clip.line.text} {[h.text for h in trial.heard]}")
            print(f"{one}, {'natural' if natural else 'other'} voices, {counts.total()}: {dict(counts)}")


if __name__ == "__main__":
    main()
