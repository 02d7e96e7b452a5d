"""What would else be dropped, read once more as if it had been typed: to be asked about, or answered.

Most of what a person says and a phrase book lacks is heard word for word. Read so, far more of it means
something, and so does more talk: nothing is filed of it without a yes.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from voicecoach.understand.deciding import Read
from voicecoach.understand.lines import LONGEST, LineReader
from voicecoach.understand.meaning import DIRECTIONS, Meaning
from voicecoach.understand.notes.bowls import name_said
from voicecoach.understand.values import (
    BowlMoved,
    BowlRested,
    Corrected,
    EndFinished,
    Expected,
    JackMoved,
    JackSet,
    Where,
)

LIKELIEST = 2
"""Of each decode's readings, so many are read."""
FEWEST = 3
"""Fewer words are said in passing: "where is it", "a bit short"."""
WORTH_ASKING = 0.4
WORTH_ANSWERING = 0.6
"""Shares of the decodes from which on a meaning is asked about, and a question is answered."""


class Clear(NamedTuple):
    """A meaning, the share of the decodes that heard it, and the words it was heard in."""

    meaning: Meaning
    share: float
    words: str


def clear(grouped: Mapping[str, Sequence[Read]], lines: LineReader, expected: Expected) -> Clear | None:
    """The meaning that most decodes heard, where enough did and it says enough; None for talk."""
    shares: dict[Meaning, float] = {}
    words: dict[Meaning, str] = {}
    for reads in grouped.values():
        best = sorted(reads, key=lambda read: -read.weight)[:LIKELIEST]
        total = sum(read.weight for read in best)
        for read in best:
            meaning = _meant(read.words, lines, expected) if total else None
            if meaning:
                shares[meaning] = shares.get(meaning, 0.0) + read.weight / total / len(grouped)
                words.setdefault(meaning, read.words)
    meaning = max(shares, key=lambda each: shares[each], default=None)
    if meaning is None or shares[meaning] < WORTH_ASKING:
        return None
    return Clear(meaning, shares[meaning], words[meaning])


def _meant(words: str, lines: LineReader, expected: Expected) -> Meaning | None:
    if not FEWEST <= len(words.split()) <= LONGEST or not lines.is_known(words):
        return None
    found = lines.meanings(words, expected, "typed")
    return found[0][1] if found and says_enough(found[0][1]) else None


def says_enough(meaning: Meaning) -> bool:
    """True for a question, a jack or a score, and for a bowl with its name and something of where it lies."""
    note = meaning.note
    if meaning.passing:
        return False
    if note.harmless or isinstance(note, JackMoved | JackSet | EndFinished):
        return True
    if isinstance(note, BowlRested | BowlMoved):
        return name_said(note) is not None and _is_somewhere(note)
    return isinstance(note, Corrected) and _is_somewhere(note)


def _is_somewhere(note: Where) -> bool:
    return note.gap_m is not None or note.hour is not None or not DIRECTIONS.isdisjoint(note.remarks)
