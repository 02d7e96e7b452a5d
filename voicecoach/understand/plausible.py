"""What is likely on this green, whatever the ear says."""

from __future__ import annotations

from voicecoach.understand.values import (
    BowlMoved,
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
    drawn_out: float = 0.2
    """One to three words that took longer than anybody takes for them: more was said."""
    moved_unseen: float = 0.15
    """A bowl moved that nobody has called in this end: mostly its first call, misheard."""
    touching_apart: float = 0.1
    """A bowl that touches the jack and lies apart from it."""
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
    if isinstance(note, BowlMoved) and _is_unseen(note, expected):
        share *= odds.moved_unseen
    if isinstance(note, Walk) and (note.step == "start") == expected.walking:
        share *= odds.walk_twice
    if isinstance(note, JackSet) and expected.lying:
        share *= odds.jack_set_late
    return share


def pace(words: str, took_s: float | None, odds: Odds) -> float:
    """The share of its belief that a reading keeps, given how long its words took; None if nobody knows.

    Measured on 291 spoken notes of one to three words, none took longer than this.
    """
    count = len(words.split())
    if took_s is None or count > _FEW or took_s <= _START_S + _WORD_S * count:
        return 1.0
    return odds.drawn_out


_FEW = 3
_START_S, _WORD_S = 0.7, 0.55


def _is_unseen(note: BowlMoved, expected: Expected) -> bool:
    """True where a bowl of that number is named that lies nowhere in this end."""
    if note.number is None:
        return False
    sides = (note.side,) if note.side else ("ours", "theirs")
    return all(BowlName(side=side, number=note.number) not in expected.lying for side in sides)


def _distance(note: Where, odds: Odds) -> float:
    said = [abs(gap) for gap in (note.gap_m, note.along_m, note.across_m) if gap is not None]
    apart = odds.touching_apart if "touching" in note.remarks and any(said) else 1.0
    farthest = max(said, default=0.0)
    if isinstance(note, JackMoved):
        farthest /= 2  # a hard shot sends the jack farther than a bowl is called from it
    if farthest > odds.too_far_m:
        return odds.too_far * apart
    return odds.far * apart if farthest > odds.far_m else apart


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
