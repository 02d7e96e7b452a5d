"""Answers to the program's questions, in the voice that spoke the note."""

from __future__ import annotations

import zlib

import numpy as np

from tests.bench.hearing.corpus import Clip, make
from tests.bench.hearing.lines import Line
from tests.bench.hearing.noise import Condition, heard_through
from voicecoach import phrasebook
from voicecoach.hear.blocks import Block, Samples
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.values import Heard
from voicecoach.understand.values import OpenQuestion


class Replies:
    """Speaks an answer and lets the program hear it under the same condition as the note."""

    def __init__(self, recogniser: Recogniser, condition: Condition, talk: list[Samples]) -> None:
        self._ear = Ear(recogniser)
        self._condition = condition
        self._talk = talk

    def hear(self, clip: Clip, words: str | None, question: OpenQuestion | None) -> tuple[Heard, ...]:
        """Hear the answer, or the note said once more where no answer fits."""
        said = clip if words is None else self._spoken(clip, words)
        dice = np.random.default_rng(zlib.crc32(f"reply|{said.path.name}|{self._condition}".encode()))
        sound = heard_through(said.sound(), self._condition, dice, self._talk, clip.voice.part)
        self._ear.expect(phrasebook.load().answers(question))
        return tuple(self._ear.listen([Block(sound, 0.0)], "bench"))

    def _spoken(self, clip: Clip, words: str) -> Clip:
        line = Line(part=clip.line.part, form="free", text=f"{words}.", meaning=None)
        answer = Clip(clip.voice, line, clip.speed)
        if not answer.path.exists():
            make(answer)
        return answer
