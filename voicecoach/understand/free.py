"""Reads one line as pieces in any order: a bowl, the jack, the game."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from voicecoach.understand import placing
from voicecoach.understand.bag import LOOSE, ODD, SMALL_PIECES, Piece, split
from voicecoach.understand.chart import Chart
from voicecoach.understand.draft import gather
from voicecoach.understand.index import Index
from voicecoach.understand.meaning import Meaning
from voicecoach.understand.pieces import Gap
from voicecoach.understand.players import named
from voicecoach.understand.questions import question
from voicecoach.understand.values import (
    BowlMoved,
    BowlRested,
    Corrected,
    EndFinished,
    Expected,
    GameSet,
    Question,
    Where,
)

IN_PASSING = frozenset({"format", "lead"})
"""Clauses that people say anyway once an end is under way: "we lead"."""

LOOSE_TYPED = 8
LOOSE_HEARD = 3
"""Of small words that say nothing, more make it sooner talk than a note."""

MOST_ODD = 3
"""Of words that say nothing, so many are passed over where a bowl, a distance and an hour are told."""

Reader = Callable[[Sequence[Piece], Expected], Meaning | None]


def bowl(pieces: Sequence[Piece], expected: Expected) -> Meaning | None:  # noqa: PLR0911 - one line for each reason
    """The pieces as a note about a bowl, or as a question about one."""
    said = named(pieces, expected)
    draft = gather(said) if said else None
    if draft is None:
        return None
    pieces = said or pieces
    asks = pieces[0].part == "is" and not pieces[0].says.get("past")
    if pieces[0].part == "is" and not draft.gaps and (asks or not draft.side) and not draft.number:
        return None
    if pieces[0].part == "is" and draft.side and draft.number:  # "is their first touching?"
        return Meaning(Question(ask="bowl", side=draft.side, number=draft.number))
    meaning = placing.bowl(draft, expected)
    past = any(piece.says.get("past") for piece in pieces)
    if meaning and past and not draft.placed:
        return None if isinstance(meaning.note, BowlRested) else meaning  # "that was our second" puts right
    nameless = not (draft.side or draft.number) or not meaning or not isinstance(meaning.note, BowlRested)
    if meaning and nameless and past:
        return meaning._replace(passing=True)  # "that was a metre"
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
    if {piece.part for piece in pieces if piece.part not in SMALL_PIECES} == {"straight_back"}:
        back = Corrected(target="jack", remarks=("in the ditch", "past"))
        return Meaning(back) if expected.ditched else None
    draft = gather(pieces) if pieces[0].part != "is" else None  # "has the jack moved" asks
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


def score(pieces: Sequence[Piece], expected: Expected) -> Meaning | None:
    """The pieces as the score of the end: who took how many, or nobody any."""
    sides = {piece.says["side"] for piece in pieces if "side" in piece.says}
    shots = list({piece.says["shots"] for piece in pieces if "shots" in piece.says})
    over = any(piece.says.get("over") for piece in pieces)
    if len(sides) > 1 or len(shots) > 1 or (bool(sides) != any(shots)) or not (over or sides):
        return None
    counted = over or any(piece.says.get("to") for piece in pieces)
    note = EndFinished(side=next(iter(sides), None), shots=shots[0] if shots else None)
    if expected.finished and not over:  # another score for it is said after a "no", or it is asked about
        return Meaning(note, "yes or no") if counted else None
    return Meaning(note, passing=not counted)  # "they got two" may be cups of tea


READERS: dict[str, Reader] = {"bowl": bowl, "jack": jack, "game": game}
TOLERANT: dict[str, Reader] = {**READERS, "question": question, "score": score}
"""And the ones for what is only read where nothing usual was said."""


def free(
    index: Index, chart: Chart, starts: Sequence[int], end: int, expected: Expected
) -> Iterator[tuple[float, int, Meaning]]:
    """Every note that pieces in any order make of the words up to `end`, with where it starts."""
    for name, reader in (TOLERANT if chart.tolerant else READERS).items():
        for start, ways in split(chart, index, name, starts, end).items():
            for way in ways:
                pieces = [piece for piece in way.pieces if piece not in (LOOSE, ODD)]
                meaning = reader(pieces, expected) if pieces else None
                if meaning and _is_enough(
                    meaning, way.pieces.count(LOOSE), way.pieces.count(ODD), chart.typed
                ):
                    yield way.cost, start, meaning


def _is_enough(meaning: Meaning, loose: int, odd: int, typed: bool) -> bool:
    """True where so much passed over leaves no doubt that it was meant as a note."""
    note = meaning.note
    if odd:
        placed = isinstance(note, Where) and note.gap_m is not None and note.hour is not None
        named = isinstance(note, BowlRested | BowlMoved) and note.side is not None
        return placed and not meaning.missing and odd <= (MOST_ODD if named else 1)
    return loose <= (LOOSE_TYPED if typed else LOOSE_HEARD)
