"""Reads one line as pieces in any order: a bowl, the jack, the game."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from voicecoach.understand import placing
from voicecoach.understand.bag import Piece, split
from voicecoach.understand.chart import Chart
from voicecoach.understand.draft import gather
from voicecoach.understand.index import Index
from voicecoach.understand.pieces import Gap
from voicecoach.understand.placing import Meaning
from voicecoach.understand.values import Expected, GameSet, Question

IN_PASSING = frozenset({"format", "lead"})
"""Clauses that people say anyway once an end is under way: "we lead"."""

Reader = Callable[[Sequence[Piece], Expected], Meaning | None]


def bowl(pieces: Sequence[Piece], expected: Expected) -> Meaning | None:
    """The pieces as a note about a bowl, or as a question about one."""
    draft = gather(pieces)
    if draft is None:
        return None
    if pieces[0].part == "is" and draft.side and draft.number:  # "is their first touching?"
        return Meaning(Question(ask="bowl", side=draft.side, number=draft.number))
    meaning = placing.bowl(draft, expected)
    if meaning and not meaning.missing and draft.hour is None and _past_a_bowl(pieces):
        return meaning._replace(missing="yes or no")
    return meaning


def _past_a_bowl(pieces: Sequence[Piece]) -> bool:
    """True for "a metre behind our second": does it lie so, or is another bowl behind it?"""
    after = next((pieces[at + 1 :] for at, piece in enumerate(pieces) if piece.says.get("beyond")), ())
    parts = [piece.part for piece in after]
    return parts[:1] in (["number"], ["last"]) or parts[:2] == ["side", "number"]


def jack(pieces: Sequence[Piece], expected: Expected) -> Meaning | None:
    """The pieces as a note about the jack."""
    draft = gather(pieces)
    return placing.jack(draft) if draft else None


def game(pieces: Sequence[Piece], expected: Expected) -> Meaning | None:
    """The pieces as clauses of the game; a jack alone is the jack of this end, not the game's."""
    parts = [piece.part for piece in pieces if piece.part != "and"]
    if set(parts) <= {"length"} or set(parts) == {"up"} or max(Counter(parts).values()) > 1:
        return None
    if expected.lying and len(parts) == 1 and parts[0] in IN_PASSING:
        return None
    fields: dict[str, Any] = {}
    for piece in pieces:
        for slot, value in piece.says.items():
            if slot in ("mat", "jack", "rink", "green"):
                fields[f"{slot}_m"] = value.metres if isinstance(value, Gap) else float(value)
            else:
                fields[slot] = value
    return Meaning(GameSet(**fields))


READERS: dict[str, Reader] = {"bowl": bowl, "jack": jack, "game": game}


def free(
    index: Index, chart: Chart, starts: Sequence[int], end: int, expected: Expected
) -> Iterator[tuple[float, int, Meaning]]:
    """Every note that pieces in any order make of the words up to `end`, with where it starts."""
    for name, reader in READERS.items():
        for start, ways in split(chart, index, name, starts, end).items():
            for way in ways:
                meaning = reader(way.pieces, expected)
                if meaning:
                    yield way.cost, start, meaning
