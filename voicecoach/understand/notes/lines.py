"""Notes that ask about the player's lines, and about what the head would be: nothing is filed."""

from typing import Literal

from voicecoach.understand.notes.base import AnyNote
from voicecoach.understand.vocabulary import Hand, Side, Where

LineTopic = Literal["hands", "turning", "angle", "weight", "speed", "miss"]
"""What is asked about.

hands: what is open and what is in the way. turning: where the line turns, and its aim. angle: what the
line rests on, and how sure it is. weight, speed: the next bowl beside the last one. miss: whether the last
one missed by line or by weight.
"""


class LineAsked(AnyNote):
    """A question about the player's lines to a target."""

    harmless = is_answered = True
    is_a_link = False

    kind: Literal["line_asked"] = "line_asked"
    ask: LineTopic
    hand: Hand | None = None
    """The hand asked about; None for both."""
    side: Side | None = None
    number: int | None = None
    """The target, where it is a bowl; without it, and without `past_m`, the jack is meant."""
    past_m: float | None = None
    """The target, where it is a place so far past the jack, metres."""


class WhatIf(AnyNote, Where):
    """How the head would look with a bowl taken away, or with the jack moved."""

    harmless = is_answered = True
    is_a_link = False

    kind: Literal["what_if"] = "what_if"
    side: Side | None = None
    number: int | None = None
    """The bowl taken away; without both, the one that was spoken of last, else the shot bowl."""
    jack: bool = False
    """True where the jack is moved, to where the note says."""
    length_m: float | None = None
    """The jack's new distance from the mat line, where that was said, metres."""


LineNote = LineAsked | WhatIf
