"""The head worked out for speech: how each bowl lies, who holds."""

from __future__ import annotations

from typing import Literal

from voicecoach.head.values.bodies import State
from voicecoach.head.values.calls import Called
from voicecoach.head.values.play import Head
from voicecoach.head.values.points import Point, point
from voicecoach.understand.values import BowlName, Side, Unit
from voicecoach.value import Value

Sure = Literal["plain", "about", "between"]


class Lie(Value):
    """How one bowl lies now, seen from the jack; None where it has no place (dead)."""

    side: Side
    number: int
    x_m: float | None
    y_m: float | None
    gap_m: float | None
    """Between nearest points, metres."""
    hour_exact: float | None
    """In (0, 12]."""
    hour: float | None
    """As it would be spoken: as called until the jack moves, then a whole hour 1 to 12."""
    sure: Sure = "plain"
    between: tuple[int, int] | None = None
    """The two hours, clockwise, when sure is `between`."""
    gap_sd_m: float = 0.0
    """Standard deviation of the gap, metres."""
    doubt: tuple[float, float, float] | None = None
    """Of its place seen from the jack: variance across, variance along, covariance; square metres."""
    left_right: Literal["left", "right"] | None = None
    """Only where it is wrong with no more than the stated probability."""
    depth: Literal["short", "past", "jack high"] | None = None
    along_m: float | None = None
    """Centre of the bowl past the jack's centre, along the rink, metres."""
    across_m: float | None = None
    """Centre of the bowl right of the jack's centre, metres."""
    said: Called | None = None
    state: State = "live"
    toucher: bool = False
    why_dead: str | None = None
    measured: bool = False
    """True when a tape gave the gap."""
    unit: Unit | None = None
    """The unit it was called in, for speaking it back the same way."""

    @property
    def place(self) -> Point | None:
        """Where it lies; None where it has no place (dead)."""
        return point(self.x_m, self.y_m)


class Holding(Value):
    """Who holds shot; `side` is the likelier side even when `sure` is false."""

    side: Side | None
    shots: int | None
    """None when the count is unsure."""
    sure: bool
    probability: float
    """That `side` holds."""


class Picture(Value):
    """The head worked out for speech: everything the describing stage needs."""

    head: Head
    lies: tuple[Lie, ...] = ()
    """In the order in which the bowls were first called."""
    holding: Holding | None = None
    """None only for a head without bowls."""
    next_up: BowlName | None = None
    """None when all of the end's bowls are called, or the end is over."""
    to_come: tuple[int, int] | None = None
    """Bowls of ours and of theirs not yet called in this end; None while the format isn't set."""
