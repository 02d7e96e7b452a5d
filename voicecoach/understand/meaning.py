"""A note as far as it was understood: what is still missing from it, and what in it contradicts itself."""

from __future__ import annotations

from typing import NamedTuple

from voicecoach.understand.values import DIRECTIONS as WORDS_FOR_WHERE
from voicecoach.understand.values import HOUR_OF, BowlMoved, BowlRested, JackMoved, Note, Slot, Where

DIRECTIONS = frozenset(WORDS_FOR_WHERE) - {"jack high"}
"""Words that say which way; jack high alone leaves open on which side."""
ASKED_BY_THE_HEAD = frozenset({"respotted", "wrong bias"})
"""Words after which the head knows what else has to be asked."""
COMPLETE = frozenset({"touching", "in the ditch", "dead", "out of the rink"})
"""Words that place a bowl without a distance."""


class Meaning(NamedTuple):
    """A note, and what is still missing from it or contradicts itself."""

    note: Note
    missing: Slot | None = None
    disputed: bool = False
    passing: bool = False
    """True for words that people say anyway ("short", "no"): meant as a note only where they are typed."""
    figure: float | None = None
    """The distance said without its unit, where that is what is missing."""


def missing_slot(note: Note) -> Slot | None:
    """The slot without which a place isn't whole; None for a whole note."""
    if not isinstance(note, BowlRested | BowlMoved | JackMoved):
        return None
    words = set(note.remarks)
    if isinstance(note, JackMoved) and note.length_m is not None:
        return None
    if note.along_m is not None or note.landmark is not None or words & (COMPLETE | ASKED_BY_THE_HEAD):
        return None  # of what is missing from another bowl the head asks, and names that bowl
    if note.gap_m is None:
        return "gap"
    if note.hour is not None or words & DIRECTIONS:
        return None
    return "left or right" if "jack high" in words else "hour"


def disputed_note(note: Note) -> bool:
    """True when the hour and the words for where can't all be right."""
    if not isinstance(note, Where):
        return False
    if note.hour is None:
        return any({*pair} <= set(note.remarks) for pair in (("left", "right"), ("short", "past")))
    hour, width = note.hour, note.hour_width
    return any(not fits(hour, width, word) for word in note.remarks)


def meaning(note: Note) -> Meaning:
    """A note as it stands, with what it lacks."""
    return Meaning(note, missing_slot(note), disputed_note(note))


def fits(hour: float, width: float, word: str) -> bool:
    """True when some part of the hour lies on the side that the word names."""
    centre = HOUR_OF.get(word)
    if centre is None:
        return True
    apart = abs((hour - centre + 6) % 12 - 6)
    return apart - width / 2 < 3
