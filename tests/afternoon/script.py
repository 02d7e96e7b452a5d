"""What is said and what blows on an afternoon, in order; the same seed gives the same afternoon."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from tests.bench.soak_sounds import phrases
from voicecoach.places import scenarios
from voicecoach.story import read_story

FIRST_END = scenarios() / "first_end"
STOP = Path(__file__).parents[1] / "live" / "audio" / "stop.wav"
DIRECTOR, PLAYER = "rms", "slt"
NOISES = ("wind", "mower", "crowd")
HOURS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
GAPS = (
    "twenty centimetres",
    "forty centimetres",
    "sixty centimetres",
    "eighty centimetres",
    "ninety centimetres",
    "a metre",
    "a metre and a half",
    "two metres",
    "three metres",
)
NUMBERS = ("first", "second", "third", "fourth")
Kind = Literal["note", "question", "chatter"]


@dataclass(frozen=True)
class Line:
    """Something that somebody says."""

    kind: Kind
    say: str
    voice: str = DIRECTOR
    wav: Path | None = None
    """Its recording, where there is one already."""
    wind: bool = False
    """True when it is said in a light wind."""
    cut_after_s: float | None = None
    """When somebody says "stop" into the answer, seconds from its first sound; None for never."""


@dataclass(frozen=True)
class Alone:
    """A stretch in which nobody speaks: the kind of noise, or `silence`."""

    name: str
    seconds: float


def afternoon(seed: int) -> Iterator[Line | Alone]:
    """End after end, as long as anybody listens; a stretch of noise alone between two of them."""
    dice = random.Random(seed)
    talk = _talk(dice, seed)
    yield from _first_end()
    number = 1
    while True:
        yield Line("note", "the end is finished, one shot to us")
        yield Alone(NOISES[(number - 1) % len(NOISES)], 65.0)
        yield Line("note", "next end")
        number += 1
        yield from _end(dice, talk, windy=number % 3 == 0)
        yield Line("question", "read the head", PLAYER, cut_after_s=5.0 if number % 2 else None)
        yield Alone("silence", 30.0)


def _talk(dice: random.Random, seed: int) -> Iterator[Line]:
    while True:
        for say in phrases(200, seed):
            yield Line("chatter", say, dice.choice((PLAYER, "awb")))


def _first_end() -> Iterator[Line]:
    """The recorded end, with its chatter and its two questions."""
    for step in read_story(FIRST_END / "story.yaml").steps:
        kinds: dict[str, Kind] = {"noted": "note", "answered": "question", "dropped": "chatter"}
        if step.audio:
            yield Line(kinds[step.outcome], step.say, wav=FIRST_END / step.audio)


def _end(dice: random.Random, talk: Iterator[Line], *, windy: bool) -> Iterator[Line]:
    """The jack and eight bowls, a correction, a jack that moves, talk and a question in between."""
    yield Line("note", f"jack at twenty {dice.choice(('three', 'six', 'eight'))} metres")
    for count in range(8):
        side = ("our", "their")[count % 2]
        place = f"{dice.choice(GAPS)}, {dice.choice(HOURS)} o'clock"
        yield Line("note", f"{side} {NUMBERS[count // 2]}, {place}", wind=windy and count > 3)
        if count in (1, 4, 6):
            yield next(talk)
        if count == 3:
            yield Line("note", f"no, {dice.choice(HOURS)} o'clock")
            yield Line("question", "who holds", PLAYER)
        if count == 5:
            yield Line("note", f"jack moved half a metre to {dice.choice(('two', 'ten', 'twelve'))} o'clock")
