"""What a look along the player's lines gives: values for the stage that describes."""

from typing import Literal

from voicecoach.head.values.bowling import OutTo
from voicecoach.understand.values import BowlName, Hand
from voicecoach.value import Value

Openness = Literal["clear", "tight", "blocked"]


class HandLook(Value):
    """One hand's line to a target, and the nearest thing to it."""

    hand: Hand
    out: OutTo
    """The side to which the bowl goes out."""
    angle_deg: float
    state: Openness
    by: BowlName | Literal["jack"] | None = None
    """What blocks the line or makes it tight; None where it is clear."""
    near: BowlName | Literal["jack"] | None = None
    """That body, or the nearest to the line where it is clear; None where nothing lies before the target."""
    short_m: float | None = None
    """How far it lies short of the target, between nearest parts along the straight line, metres."""
    aside: Literal["left", "right", "on"] | None = None
    """On which side of the line its centre lies; on: within a quarter of a bowl."""
    others: int = 0
    """How many more bodies block the line, or make it tight, in the same way."""
    clearance_m: float | None = None
    """Between the swept path and that body, metres; negative where they overlap."""
    sure: float
    """The probability, over the doubt of the places, that the state is the one said."""


class Hands(Value):
    """The lines to one target, the most open first."""

    target: BowlName | Literal["jack", "place"]
    past_m: float = 0.0
    """Of a bare place: how far past the jack it was said to be, metres."""
    hands: tuple[HandLook, ...]
    roughly: bool
    """True while nothing is known of the player's own angle."""
    right_hander: bool
    """True where a right-hander was taken for granted."""


class Turning(Value):
    """Where one hand's line turns back, and what it is aimed at."""

    hand: Hand
    out: OutTo
    angle_deg: float
    interval_deg: tuple[float, float]
    """Holds the true angle 95 times in 100."""
    up_m: float
    """The widest point, from the mat along the straight line to the target, metres."""
    aside_m: float
    """The widest point, from that line, metres."""
    mark_m: tuple[float, float]
    """How far up the player's mark is, and how far to the side of the straight line the aim passes there."""
    target_m: tuple[float, float]
    """The same at the target's length."""
    ditch_m: tuple[float, float] | None
    """The same at the front ditch; None while the green's length or the mat line isn't set."""
    by: Literal["usual", "pace", "named", "shown"]
    """What the angle rests on: shown by called bowls, named, or usual (at the pace that was told)."""
    bowls: int = 0
    """How many bowls have shown it."""
    roughly: bool


class Weight(Value):
    """The length of the next bowl beside that of our last."""

    bowl: BowlName
    """Our last bowl."""
    longer_m: float
    """By how much the target is farther from the mat than the place where that bowl came to rest, metres."""
    faster: float
    """The share by which its first speed must grow: the square root of the lengths, less one."""


class Miss(Value):
    """Our last bowl's miss, parted into line and weight."""

    bowl: BowlName
    right_m: float
    """How far right of its line it came to rest, at the jack's length; negative: left."""
    past_m: float
    """How far past the jack's length it came to rest; negative: short."""
    spread_m: float
    """The player's own spread of line at the jack, as a standard deviation, metres."""
    line: bool
    """True where the line was out by more than the player's own spread."""
    weight: bool
    """True where the weight was."""
