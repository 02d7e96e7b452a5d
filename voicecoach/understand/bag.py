"""Splits a line into pieces that may come in any order."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from voicecoach.understand.chart import Chart, fold
from voicecoach.understand.index import Index

SMALL_PIECES = frozenset({"is", "glue", "and", "pointer", "line", "exactly"})
SMALL_COST = 0.2
PIECE_COST = 1.0
WAYS_KEPT = 8
"""Of the ways to split the rest of a line, only the cheapest are followed."""


class Piece(NamedTuple):
    """One piece of a note: which part of the book it is, and what it says."""

    part: str
    says: dict[str, Any]


class Way(NamedTuple):
    """One way to split a whole line into pieces; cheaper is likelier."""

    cost: float
    pieces: tuple[Piece, ...]


def split(chart: Chart, index: Index, bag: str, starts: Sequence[int], end: int) -> dict[int, list[Way]]:
    """For each start, every way to explain all words up to `end` with the bag's parts, cheapest first."""
    rest: dict[int, list[Way]] = {end: [Way(0.0, ())]}
    for at in range(end - 1, min(starts) - 1, -1):
        ways = [
            Way(cost + way.cost, (piece, *way.pieces))
            for cost, piece, after in _pieces_at(chart, index.parts(bag, chart.sounds[at]), at, end)
            for way in rest[after]
        ]
        rest[at] = sorted(ways, key=lambda way: way.cost)[:WAYS_KEPT]
    return {start: rest[start] for start in starts if start < end}


def _pieces_at(chart: Chart, parts: Sequence[str], at: int, end: int) -> list[tuple[float, Piece, int]]:
    found = []
    for part in parts:
        own = SMALL_COST if part in SMALL_PIECES else PIECE_COST
        for match in chart.part(part, at):
            if at < match.end <= end:
                found.append((own + match.cost, Piece(part, fold(match.captures)), match.end))
    return found
