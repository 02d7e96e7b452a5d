"""Notes of the jack: set, moved."""

from typing import Literal

from voicecoach.understand.notes.base import AnyNote
from voicecoach.understand.vocabulary import Where


class JackSet(AnyNote):
    """The jack was set at the start of an end."""

    moves_on = True

    kind: Literal["jack_set"] = "jack_set"
    length_m: float | None = None
    """Distance from the mat line, metres."""
    confirmed: bool = False


class JackMoved(AnyNote, Where):
    """The jack moved: by `gap_m` towards `hour` (or in the words of `remarks`)."""

    moves_on = places_a_body = player_hears = True
    shown = ("gap_m", "hour", "remarks", "length_m")

    kind: Literal["jack_moved"] = "jack_moved"
    length_m: float | None = None
    """Its new distance from the mat line, where that was said instead."""
    confirmed: bool = False


JackNote = JackSet | JackMoved
