"""Bowls and the jack, where they lie, and how the jack has moved."""

from __future__ import annotations

from typing import Literal

from voicecoach.head.values.calls import Call, Called
from voicecoach.head.values.points import Point, point
from voicecoach.understand.notes.eye import Judging
from voicecoach.understand.values import Hand, Side, Where
from voicecoach.value import Value

State = Literal["live", "ditch", "dead"]
Death = Literal[
    "in the ditch, not a toucher",
    "under fourteen metres from the mat line",
    "knocked out of the rink",
    "out of the rink",
    "called dead",
]
"""Why a bowl is dead."""


class Came(Value):
    """How a bowl of ours came to the jack: kept as it was, whatever moves later."""

    right: float
    """How far right of the line from the mat to the jack it came to rest, for each metre up the rink."""
    past_m: float
    """How much farther from the mat than the jack it came to rest, metres."""
    hand: Hand | None = None
    """The hand whose line was named last before it."""
    aim_deg: float | None = None
    """That line, as it was named, degrees."""


class Bowl(Value):
    """One bowl of the end; places are the centre of its footprint in the end's frame, metres."""

    side: Side
    number: int
    x_m: float | None
    y_m: float | None
    state: State = "live"
    toucher: bool = False
    why_dead: Death | None = None
    said: Called | None = None
    as_called: bool = True
    """True until the jack (or the bowl) moves: then what is spoken is recomputed."""
    calls: tuple[Call, ...] = ()
    came: Came | None = None
    """Only for our bowls that came to rest on the green."""

    @property
    def place(self) -> Point | None:
        """Where it lies; None where it has no place (dead)."""
        return point(self.x_m, self.y_m)

    def put_at(self, place: Point) -> Bowl:
        """The same bowl in another place."""
        return self.model_copy(update={"x_m": place.x_m, "y_m": place.y_m})


class Jack(Value):
    """The jack; x_m and y_m are its centre in the end's frame, metres; None when dead."""

    x_m: float | None = 0.0
    y_m: float | None = 27.0
    state: State = "live"
    called: bool = False
    """False while it lies at the default length because nobody has set it."""
    last: tuple[float, float] | None = None
    """Where a dead jack's centre lay last, metres."""

    @property
    def place(self) -> Point | None:
        """Where it lies; None where it has no place (dead)."""
        return point(self.x_m, self.y_m)

    @property
    def lay(self) -> Point | None:
        """Where it lies, or lay last."""
        return self.place or (Point(*self.last) if self.last else None)

    def put_at(self, place: Point) -> Jack:
        """The same jack in another place."""
        return self.model_copy(update={"x_m": place.x_m, "y_m": place.y_m})


class JackMove(Value):
    """One jack move as called: displacement of its centre, metres, and how it was called."""

    dx_m: float
    dy_m: float
    where: Where
    """How far and which way, in the mat's frame; with the word `respotted` it was placed, exactly."""
    relative_sd: float
    stood: Literal["mat", "head", "tape"] = "mat"
    judging: Judging | None = None
