"""What was called of a place, and how well whoever called it judges."""

from __future__ import annotations

from typing import Literal

from voicecoach.understand.notes.eye import Judging
from voicecoach.understand.values import Unit, Where
from voicecoach.value import Value


class Called(Value):
    """What was called, kept as called."""

    gap_m: float | None
    hour: float | None
    unit: Unit | None = None
    remarks: tuple[str, ...] = ()


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
    judging: Judging | None = None
