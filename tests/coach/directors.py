"""Directors made up for the tests: each calls with a bias and a spread that are known."""

import math
import random
from dataclasses import replace
from pathlib import Path
from typing import Literal, NamedTuple

from voicecoach.coach.looks import Look
from voicecoach.conversation import Conversation
from voicecoach.understand.notes.settings import Stands
from voicecoach.understand.values import BowlRested, EndStarted, JackSet, Measured, Note, Side

SIGHT = 4 / 3
"""How much worse the program takes distances along the line of sight to be judged from the mat."""


class Director(NamedTuple):
    says: float = 1.0
    spread: float = 0.15
    floor_m: float = 0.06
    hour_shift: float = 0.0
    hour_sd: float = 0.0
    stands: Literal["mat", "head"] = "mat"


class Call(NamedTuple):
    true_gap_m: float
    true_hour: float
    gap_m: float
    hour: float
    sight: float


def call(director: Director, chance: random.Random) -> Call:
    """One call of a bowl that lies somewhere within four metres."""
    true_gap_m, true_hour = chance.uniform(0.15, 4.0), chance.uniform(0.0, 12.0)
    along = math.cos(true_hour * math.pi / 6) * (SIGHT if director.stands == "mat" else 1.0)
    sight = math.hypot(math.sin(true_hour * math.pi / 6), along)
    spread, middle = director.spread * sight, true_gap_m * director.says
    if spread * true_gap_m >= director.floor_m:
        gap_m = middle * math.exp(chance.gauss(0, spread))
    else:
        gap_m = max(0.02, middle + chance.gauss(0, director.floor_m))
    hour = round(true_hour + director.hour_shift + chance.gauss(0, director.hour_sd)) % 12 or 12
    return Call(true_gap_m, true_hour, gap_m, float(hour), sight)


def look(director: Director, chance: random.Random) -> Look:
    made = call(director, chance)
    return Look(
        stood=director.stands,
        said_gap_m=made.gap_m,
        true_gap_m=made.true_gap_m,
        sight=made.sight,
        said_hour=made.hour,
        true_hour=made.true_hour or 12.0,
    )


def play(director: Director, ends: int, chance: random.Random, journal: Path) -> None:
    """A journal of ends in which every bowl is called, then taped, distance and hour."""
    with Conversation(journal) as conversation:

        def file(note: Note) -> None:
            assert conversation.file(note, "test").outcome == "noted", note

        if director.stands == "head":
            file(Stands(value="head"))
        for end in range(ends):
            if end:
                file(EndStarted(confirmed=True))
            file(JackSet(length_m=26.0, confirmed=True))
            for number in (1, 2):
                _called_and_taped(director, conversation, "ours", number, chance)
                _called_and_taped(director, conversation, "theirs", number, chance)


def _called_and_taped(
    director: Director, conversation: Conversation, side: Side, number: int, chance: random.Random
) -> None:
    turned = 6.0 if director.stands == "head" else 0.0
    while True:
        made = call(director, chance)
        rested = BowlRested(
            side=side, number=number, gap_m=made.gap_m, unit="m", hour=_turned(made.hour, turned)
        )
        before = conversation.talk
        hour = _turned(made.true_hour, turned)
        measured = Measured(side=side, number=number, gap_m=made.true_gap_m, unit="m", hour=hour)
        if conversation.file(rested, "test").outcome == "noted":
            assert conversation.file(measured, "test").outcome == "noted"
            return
        # There was no room: it comes to rest elsewhere. What was said stays in the journal.
        conversation.talk = replace(before, number=conversation.talk.number)


def _turned(hour: float, by: float) -> float:
    return (hour + by) % 12 or 12.0
