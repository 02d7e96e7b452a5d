"""Facts worth saying beside a confirmation; in a journal each is a few plain words."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, PlainSerializer

from voicecoach.understand.values import Side
from voicecoach.value import Value

FactName = Literal[
    "ditch guessed",
    "end dead",
    "end played again",
    "game over",
    "holder changed",
    "level",
    "no score noted",
    "place the jack",
    "respotted",
    "spot covered",
    "still to come",
    "tape over order",
    "toss",
    "went along",
]
"""A fact without a figure."""


class EndsLeft(Value):
    """How many ends are still to be played."""

    ends_left: int


class ByPlaces(Value):
    """Who holds, and how many, by the places called, where that is not what was agreed."""

    by_places: int
    """Shots; 0 for none."""
    side: Side | None = None


def _written(fact: EndsLeft | ByPlaces | str) -> str:
    if isinstance(fact, EndsLeft):
        return f"ends_left:{fact.ends_left}"
    if isinstance(fact, ByPlaces):
        return f"by_places:{fact.by_places}:{fact.side or ''}"
    return fact


def _read(written: Any) -> Any:
    """The fact again; any text that an earlier version wrote stays the sentence that it is."""
    if not isinstance(written, str):
        return written
    name, *figures = written.split(":")
    if name == "ends_left" and len(figures) == 1:
        return {"ends_left": figures[0]}
    if name == "by_places" and len(figures) == 2:
        return {"by_places": figures[0], "side": figures[1] or None}
    return written


Fact = Annotated[
    EndsLeft | ByPlaces | FactName | str, BeforeValidator(_read), PlainSerializer(_written, return_type=str)
]
"""A fact; any other text is a sentence as an earlier version of the program wrote it."""
