"""How the game is played, and its score."""

from __future__ import annotations

from typing import Literal

from voicecoach.head.values.bowling import Bowling
from voicecoach.understand.notes.eye import Eye
from voicecoach.understand.values import Format, Side
from voicecoach.value import Value


class Game(Value):
    """How the game is played. None: not set."""

    format: Format | None = None
    bowls_each: int | None = None
    lead: Side | None = None
    mat_m: float | None = None
    jack_m: float | None = None
    rink_m: float | None = None
    green_m: float | None = None
    bowl_mm: float = 121.0
    jack_mm: float = 64.0
    hand: Literal["right", "left"] | None = None
    respot: bool = False
    ends: int | None = None
    up_to: int | None = None
    relative_sd: float = 0.15
    """Relative standard deviation of the director's called distances (working value)."""
    stood: Literal["mat", "head"] = "mat"
    """Where the caller stands."""
    eye: Eye = Eye()
    """How the director judges, where a tape has told."""
    shortest_jack_m: float = 23.0
    """The jack length below which the law is asked about: the law's, or a shorter one once agreed to."""
    widest_m: float | None = None
    """The width, metres, that the caller has agreed a rink of no set width to have at least."""
    farthest_m: float | None = None
    """How far from the mat line, metres, the caller has agreed the green to reach at least."""
    sure_at: float = 0.9
    """The probability from which who holds, and how many, is said plainly."""
    aim_at_m: float = 5.0
    """Distance of the mark that the player aims at in front of the mat line, metres."""
    bowling: Bowling = Bowling()
    """The green's pace, and how the player bowls on it."""


class EndScore(Value):
    """What one end brought."""

    end: int
    side: Side | None = None
    """None where nobody scored."""
    shots: int = 0


class Score(Value):
    """Shots and ends played."""

    ours: int = 0
    theirs: int = 0
    ends: int = 0
    by_end: tuple[EndScore, ...] = ()
    """In the order played; ends that an earlier version of the program scored are missing."""
