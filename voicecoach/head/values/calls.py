"""What was called of a place, and how well whoever called it judges."""

from __future__ import annotations

from typing import Literal

from voicecoach.understand.notes.eye import Judging
from voicecoach.understand.values import BowlName, Unit, Where
from voicecoach.value import Value


class Called(Value):
    """What was called, kept as called."""

    gap_m: float | None
    hour: float | None
    unit: Unit | None = None
    remarks: tuple[str, ...] = ()


class Landmark(Value):
    """The bowl from which a place was called, as it lay then."""

    name: BowlName
    right_m: float
    """How far right of the jack its centre lay then, metres."""
    past_m: float
    """How far past the jack, metres."""
    calls: tuple[Call, ...]
    """What its own place hung on then: its doubt is in the doubt of what was called from it."""


class Call(Value):
    """One estimate of a place: what was called, from where, by whom (judging None: the working values)."""

    where: Where
    jack_moves: int
    """How many jack moves had been noted in this end when it was called."""
    stood: Literal["mat", "head", "tape"] = "mat"
    relative_sd: float
    """Relative standard deviation of the called distance."""
    by: bool = False
    """True when it says how far and which way the bowl moved from its place before."""
    landmark: Landmark | None = None
    """The bowl from which it was called; None where it was called from the jack."""
    judging: Judging | None = None


Landmark.model_rebuild()
