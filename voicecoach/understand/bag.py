"""Splits a line into pieces that may come in any order."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from voicecoach.understand.chart import Chart, fold
from voicecoach.understand.index import Index

SMALL_PIECES = frozenset(
    {
        "is",
        "glue",
        "and",
        "pointer",
        "line",
        "exactly",
        "loose",
        "chalk",
        "vague",
        "centred",
        "q_small",
        "s_small",
    }
)
SMALL_COST = 0.2
PIECE_COST = 1.0
LOOSE_COST = 0.3
"""For a small word that says nothing, wherever it falls."""
ODD_COST = 1.1
"""For a word that the book doesn't have, where it is typed: the ear has no such words."""
WAYS_KEPT = 16
"""Of the ways to split the rest of a line, only the cheapest are followed."""


class Piece(NamedTuple):
    """One piece of a note: which part of the book it is, and what it says."""

    part: str
    says: dict[str, Any]


class Way(NamedTuple):
    """One way to split a whole line into pieces; cheaper is likelier."""

    cost: float
    pieces: tuple[Piece, ...]


LOOSE = Piece("loose", {})
ODD = Piece("odd", {})


def split(chart: Chart, index: Index, bag: str, starts: Sequence[int], end: int) -> dict[int, list[Way]]:
    """For each start, every way to explain all words up to `end` with the bag's parts, cheapest first.

    Small words between them say nothing; where it is typed, words that the book doesn't have don't either.
    """
    # Of a question every word may say something.
    passes = index.is_passed_over if bag == "bowl" else index.is_odd
    rest: dict[int, list[Way]] = {end: [Way(0.0, ())]}
    for at in range(end - 1, min(starts) - 1, -1):
        ways = [
            Way(cost + way.cost, (piece, *way.pieces))
            for cost, piece, after in [
                *_pieces_at(chart, index.parts(bag, chart.sounds[at]), at, end),
                *_nothing_at(chart, at, end, chart.typed and passes(chart.sounds[at])),
            ]
            for way in rest[after]
        ]
        rest[at] = sorted(ways, key=lambda way: way.cost)[:WAYS_KEPT]
    return {start: rest[start] for start in starts if start < end}


def _pieces_at(chart: Chart, parts: Sequence[str], at: int, end: int) -> list[tuple[float, Piece, int]]:
    found = []
    for part in parts:
        own = SMALL_COST if part in SMALL_PIECES else PIECE_COST
        for match in chart.part(part, at):
            says = fold(match.captures)
            if says.pop("later", False) and not (at or chart.typed):
                continue  # the ear writes it for the first word of a note
            one = (own + match.cost, Piece(part, says), match.end)
            if at < match.end <= end and one not in found:
                found.append(one)
    return found


def _nothing_at(chart: Chart, at: int, end: int, odd: bool) -> list[tuple[float, Piece, int]]:
    """What may be passed over at a word."""
    passed = [(LOOSE_COST + match.cost, LOOSE, match.end) for match in chart.loose(at) if match.end <= end]
    return [*passed, (ODD_COST, ODD, at + 1)] if odd else passed
