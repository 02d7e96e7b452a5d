"""What is likely on this green, whatever the ear says."""

from __future__ import annotations

from voicecoach.understand.values import (
    BowlName,
    BowlRested,
    Expected,
    JackMoved,
    JackSet,
    Note,
    Walk,
    Where,
)
from voicecoach.value import Value


class Odds(Value):
    """How much of its belief a meaning keeps when something about it is unusual."""

    far_m: float = 5.0
    """Gaps beyond this are rarely worth a note."""
    far: float = 0.5
    too_far_m: float = 8.0
    """Nobody calls a gap beyond this."""
    too_far: float = 0.1
    lies_already: float = 0.6
    """A bowl at rest that was called before in this end."""
    out_of_turn: float = 0.9
    """A bowl of the side whose turn it isn't."""
    skips: float = 0.8
    """A number that leaves out bowls of its side."""
    walk_twice: float = 0.2
    """A walk started that is under way, or stopped that isn't."""
    jack_set_late: float = 0.4
    """The jack set although bowls lie."""


def plausibility(note: Note, expected: Expected, odds: Odds) -> float:
    """The share of its belief that a note keeps, 0 to 1."""
    share = 1.0
    if isinstance(note, Where):
        share *= _distance(note, odds)
    if isinstance(note, BowlRested):
        share *= _bowl(note, expected, odds)
    if isinstance(note, Walk) and (note.step == "start") == expected.walking:
        share *= odds.walk_twice
    if isinstance(note, JackSet) and expected.lying:
        share *= odds.jack_set_late
    return share


def _distance(note: Where, odds: Odds) -> float:
    said = [abs(gap) for gap in (note.gap_m, note.along_m, note.across_m) if gap is not None]
    farthest = max(said, default=0.0)
    if isinstance(note, JackMoved):
        farthest /= 2  # a hard shot sends the jack farther than a bowl is called from it
    if farthest > odds.too_far_m:
        return odds.too_far
    return odds.far if farthest > odds.far_m else 1.0


def _bowl(note: BowlRested, expected: Expected, odds: Odds) -> float:
    share = 1.0
    if note.side and note.side != expected.next_side:
        share *= odds.out_of_turn
    if note.number is None:
        return share
    side = note.side or expected.next_side
    if BowlName(side=side, number=note.number) in expected.lying:
        return share * odds.lies_already
    called = [name.number for name in expected.lying if name.side == side]
    return share * (odds.skips if called and note.number > max(called) + 1 else 1.0)
