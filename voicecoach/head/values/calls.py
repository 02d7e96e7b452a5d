"""What was called of a place, and how well whoever called it judges."""

from __future__ import annotations

from typing import Literal

from voicecoach.understand.values import Unit, Where
from voicecoach.value import Value


class Called(Value):
    """What was called, kept as called."""

    gap_m: float | None
    hour: float | None
    unit: Unit | None = None
    remarks: tuple[str, ...] = ()


class Judging(Value):
    """How one director judges from one place, as found by a tape."""

    says: float = 1.0
    """Called distance for each metre of the true one: below 1 calls short."""
    relative_sd: float = 0.15
    """Relative standard deviation of a called distance."""
    floor_m: float = 0.06
    """Standard deviation of a called distance near the jack, metres: it never gets finer."""
    hour_shift: float = 0.0
    """Called hour less the true one, hours."""
    hour_sd: float = 0.0
    """Standard deviation of a called hour beyond what the hour's own width makes, hours."""


class Eye(Value):
    """A director's eye from the mat and from the head; None where no tape has said enough of it."""

    mat: Judging | None = None
    head: Judging | None = None


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
