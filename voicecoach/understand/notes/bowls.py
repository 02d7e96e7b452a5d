"""Notes of a bowl: come to rest, moved."""

from typing import Literal

from voicecoach.understand.notes.base import AnyNote
from voicecoach.understand.vocabulary import BowlName, Side, Where

PLACED = ("side", "number", "gap_m", "hour", "remarks")
"""The fields of a note about a bowl that leave the program; how it was said stays in the journal."""


class BowlRested(AnyNote, Where):
    """A bowl came to rest. `side` and `number` are None when not said."""

    moves_on = missed_if_left = places_a_body = player_hears = True
    shown = PLACED

    kind: Literal["bowl_rested"] = "bowl_rested"
    side: Side | None = None
    number: int | None = None
    confirmed: bool = False
    """True once the speaker has answered yes to a question about this very note."""


class BowlMoved(AnyNote, Where):
    """A bowl that lay was moved, knocked out, ditched, or called a toucher; `where` is its new place."""

    moves_on = player_hears = True
    shown = (*PLACED, "by", "scattered")

    kind: Literal["bowl_moved"] = "bowl_moved"
    side: Side | None = None
    number: int | None = None
    by: bool = False
    """True when the distance and hour say how far and which way it moved, not where it lies now."""
    scattered: bool = False
    """True for "the head has scattered": every live bowl is to be called again."""
    confirmed: bool = False


BowlNote = BowlRested | BowlMoved


def name_said(note: object) -> BowlName | None:
    """The bowl that a note of a bowl names by side and number; None where it leaves one of them open."""
    if not isinstance(note, BowlNote) or note.side is None or note.number is None:
        return None
    return BowlName(side=note.side, number=note.number)


def lacks_an_owner(note: object) -> bool:
    """True for a bowl at rest of which nobody said whose it is."""
    return isinstance(note, BowlRested) and note.side is None


def is_nameless(note: object) -> bool:
    """True for a bowl at rest of which nobody said whose it is, nor which."""
    return isinstance(note, BowlRested) and note.side is None and note.number is None
