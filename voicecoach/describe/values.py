"""What is to be spoken, how the listener wants it, and the stops of a walk."""

from typing import Literal

from voicecoach.understand.values import BowlName, Side
from voicecoach.value import Value


class Sentence(Value):
    """One sentence for the ear, and the pause that follows it."""

    text: str
    """Plain words, ASCII apostrophes, no digits or symbols that a voice would stumble on."""
    pause_s: float = 0.3
    """Silence after it, seconds."""
    about: BowlName | None = None
    """The bowl it describes, if one."""
    place: tuple[float, float] | None = None
    """Where it lies from the jack (right, past), metres, for the stereo read-back."""
    within_s: float | None = None
    """The longest it should take to say, seconds: a voice that would take longer speaks it faster."""
    group: int | None = None
    """In a list that can be given a group at a time: the group it belongs to, 0 for the sum."""


Sentences = tuple[Sentence, ...]
"""What is said at once, in order."""


class Battery(Value):
    """The battery of the device."""

    percent: int
    """How full it is, 0 to 100."""
    charging: bool = False
    """True while it is plugged in."""
    left_s: float | None = None
    """How long it lasts, seconds, as the system reckons; None where that isn't known."""


class Preferences(Value):
    """How one listener wants to hear."""

    units: Literal["as called", "metres", "feet"] = "as called"
    """`feet` means feet and inches, and yards farther off."""
    hours: Literal["as called", "whole", "halves"] = "as called"
    """`as called`: half-hours only where they were called."""
    hour_first: bool = False
    """True to hear the hour before the distance."""
    terse: bool = False
    """True for the shortest list."""
    sides: Literal["ours", "yours"] = "ours"
    """`yours`: "your" and "their", for singles."""
    form: Literal["head", "nearest four", "ours", "theirs", "changed", "round the clock", "short"] = "head"
    """What is heard when the head is asked for."""
    groups: bool = False
    """True to hear a group at a time, the next one on the listener's word."""
    unasked: bool = True
    """True to hear one sentence after each bowl, unasked (the player)."""
    hands: bool = False
    """True to hear one sentence about the hands after "my turn"."""
    pace_m: float | None = None
    """Length of the walker's own pace, metres; None to hear metres."""
    facing: Literal["jack", "mat"] = "jack"
    """Which way the listener faces: left and right are then the listener's."""
    short_cautions: bool = False
    """True for a returning user: the cautions are shortened, never left out."""


class Beside(Value):
    """One bowl at a stop of the walk."""

    side: Side
    number: int
    aside_m: float
    """Distance of its centre from the centre line, metres."""
    on: Literal["left", "right"] | None
    """The side of the centre line as seen from the mat; None when its centre is on the line."""
    in_path: bool = False
    """True when part of it lies within half a metre of the path."""
    in_ditch: bool = False


class BesideJack(Value):
    """The jack at a stop of the walk."""

    aside_m: float
    on: Literal["left", "right"] | None
    in_path: bool = False
    in_ditch: bool = False


class Stop(Value):
    """One halt on the way from the mat up the centre line."""

    at_m: float
    """From the mat line to the stop's body nearest the mat, along the rink, metres."""
    far_m: float
    """From the mat line to its farthest body: met first on the way back, metres."""
    ahead_m: float | None
    """From here to the next stop, metres; None at the last one."""
    level: tuple[Beside | BesideJack, ...]
    """What is level with the stop, left before right."""
    ditch_m: float | None = None
    """From here to the edge of the front ditch, metres; None when the green's length isn't known."""


class Walking(Value):
    """Where a walk has got to."""

    at: int = -1
    """Index of the stop stood at; -1 at the mat, one past the last stop beyond the head."""
    facing: Literal["jack", "mat"] = "jack"
    """The way the walkers face, which is the way they go."""
