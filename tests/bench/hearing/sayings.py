"""How well natural sayings are heard: python -m tests.bench.hearing.sayings.

Each saying of `tests/sayings` is spoken by one of the scored natural-sounding voices, in turn, after the same
head as when it is typed, and judged alike. What is right typed and not by voice is hearing's loss.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

import click
import numpy as np

from tests.bench.hearing.corpus import Clip, complete
from tests.bench.hearing.engines import available
from tests.bench.hearing.lines import Line
from tests.bench.hearing.noise import CONDITIONS, Condition, heard_through
from tests.bench.hearing.voices import VOICES, Voice
from tests.sayings import judging
from tests.sayings.__main__ import FILES
from tests.sayings.judging import USUAL, WHEN
from voicecoach import phrasebook
from voicecoach.head import picture
from voicecoach.hear.blocks import Block
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.values import Heard
from voicecoach.model_store import model_path
from voicecoach.session.talk import Talk
from voicecoach.session.turn import expected, turn
from voicecoach.session.view import turn_line
from voicecoach.understand.reading import Understanding

SAID_BY = ("piper-joe", "flite-rms", "kokoro-bm_george", "kokoro-bf_isabella", "kokoro-af_nova")
OUTCOMES = ("right", "wrong", "asked", "refused", "answered", "dropped")


class Listening:
    """The ear and the understanding behind it."""

    def __init__(self) -> None:
        self._book = phrasebook.load()
        self._understanding = Understanding(self._book)
        self._talk = Talk()
        self._ear = Ear(Recogniser(model_path(), self._book), self._is_whole)

    def _is_whole(self, text: str) -> bool | None:
        return self._understanding.is_final(text, expected(self._talk, Heard(text=text)))

    def judged(self, row: judging.Line, clip: Clip, condition: Condition) -> tuple[str, str]:
        """What came of a saying that was spoken, and the words that were heard."""
        self._talk = Talk()
        for text in row["before"] or USUAL:
            before = self._told(Heard(text=text))
        dice = np.random.default_rng([len(row["text"]), 7])
        sound = heard_through(clip.sound(), condition, dice, [], "scored")
        self._ear.expect(self._book.answers(self._talk.open))
        heard = list(self._ear.listen([Block(sound, 0.0)], "sayings"))
        words = " / ".join(one.text for one in heard)
        after = before
        for one in heard:
            told = self._told(one)
            after = told if told["outcome"] != "dropped" or after is before else after
        if after is before:
            return "dropped", words
        if any(judging.met(want, after, before) for want in row["expect"]):
            return "right", words
        return ("wrong" if after["outcome"] == "noted" else str(after["outcome"])), words

    def _told(self, heard: Heard) -> judging.Line:
        self._talk, entry = turn(self._talk, heard, self._understanding, WHEN)
        return turn_line(entry, picture(self._talk.play.head)).model_dump(mode="json")


def spoken(voices: Sequence[Voice], every: int) -> Iterator[tuple[judging.Line, Clip]]:
    """Every so-many-th saying with its clip, the voices in turn."""
    rows = [row for name in FILES for row in judging.rows(name)][::every]
    for at, row in enumerate(rows):
        line = Line(part="scored", form="everyday", text=f"{row['text']}.", meaning=None)
        yield row, Clip(voices[at % len(voices)], line, 1.0)


@click.command()
@click.option("--condition", type=click.Choice(CONDITIONS), default="clean", show_default=True)
@click.option("--every", default=1, show_default=True, help="Only every so-many-th saying.")
@click.option("--show", is_flag=True, help="Print each that is right typed, and not by voice.")
def main(condition: Condition, every: int, *, show: bool) -> None:
    """Print how often sayings come out right, typed and spoken."""
    voices = [voice for voice in VOICES if voice.key in SAID_BY and available(voice.engine)]
    pairs = list(spoken(voices, every))
    complete([clip for _, clip in pairs])
    listening, typed, by_voice = Listening(), Counter[str](), Counter[str]()
    for row, clip in pairs:
        was = judging.judged(row)
        came, words = listening.judged(row, clip, condition)
        typed[was] += 1
        by_voice[came] += 1
        if show and was == "right" != came:
            print(f"{came}: {row['text']} ({clip.voice.key} was heard: {words})")
    print(f"{len(pairs)} sayings by {len(voices)} voices, {condition}")
    for name, counts in (("typed", typed), ("spoken", by_voice)):
        shares = (f"{each} {100 * counts[each] / len(pairs):.1f} %" for each in OUTCOMES)
        print(f"  {name}: {', '.join(shares)}")


if __name__ == "__main__":
    np.seterr(all="raise", under="ignore")
    main()
