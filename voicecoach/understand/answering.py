"""Reads an utterance as the answer to the question that is open."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from voicecoach.understand.bag import LOOSE, ODD, SMALL_PIECES, Way, split
from voicecoach.understand.chart import Chart
from voicecoach.understand.draft import Draft, gather
from voicecoach.understand.index import Index
from voicecoach.understand.meaning import DIRECTIONS, Meaning, disputed_note, fits, missing_slot
from voicecoach.understand.pieces import METRES
from voicecoach.understand.values import Declined, Expected, JackSet, Note, OpenQuestion, Where

LEAST_FIGURE = 10
"""Fewer centimetres than this nobody says without the word: five may be feet."""
ANSWER_COST = -1.0
"""With a question open, its answer is likelier than the same words meant otherwise."""


def answers(
    index: Index, chart: Chart, start: int, end: int, expected: Expected
) -> Iterator[tuple[float, Meaning]]:
    """Every way in which these words answer the question that is open; none where none is."""
    question = expected.open
    if question is None:
        return
    yield from _chosen(index, chart, start, end, question)
    bag = "hour answer" if question.slot == "hour" else "answer"
    for way in split(chart, index, bag, [start], end).get(start, []):
        meaning = _filled(way, question, expected) if ODD not in way.pieces else None
        if meaning:
            yield ANSWER_COST + way.cost, meaning


def _chosen(
    index: Index, chart: Chart, start: int, end: int, question: OpenQuestion
) -> Iterator[tuple[float, Meaning]]:
    """The offered answers in so many words, yes and no."""
    for answer, choice in zip(question.answers, question.choices, strict=False):
        for words in index.book.answer_words(answer):
            for cost in chart.said(words, start, end):
                yield ANSWER_COST + cost, Meaning(choice)
    for match in chart.named("no" if question.slot == "yes or no" else "neither", start):
        if match.end == end:
            yield ANSWER_COST + match.cost, Meaning(Declined())
    if question.slot == "yes or no":
        for match in chart.named("yes", start):
            if match.end == end:
                yield ANSWER_COST + match.cost, Meaning(_confirmed(question))


def _confirmed(question: OpenQuestion) -> Note:
    """The note that yes stands for: the one offered, or the waiting one, now confirmed by its speaker."""
    if question.choices:
        return question.choices[0]
    pending = question.pending
    return (
        pending.model_copy(update={"confirmed": True})
        if "confirmed" in type(pending).model_fields
        else pending
    )


def _filled(way: Way, question: OpenQuestion, expected: Expected) -> Meaning | None:
    """What words that only fill the slot make: the choice that has them, or the waiting note with them."""
    draft = gather([piece for piece in way.pieces if piece.part != "fix" and piece != LOOSE])
    fixed = any(piece.part == "fix" for piece in way.pieces)
    said = _said(draft) if draft else {}
    plain = [piece for piece in way.pieces if piece.part not in SMALL_PIECES]
    if {piece.part for piece in plain} & {"bare_answer", "unit_answer"}:
        if question.slot != "gap" or len(plain) > 1:
            return None  # a number of nothing: "three of us"
        figure = plain[0].says.get("bare")
        if figure and (figure < LEAST_FIGURE or expected.feet):
            return Meaning(question.pending, "gap", figure=float(figure))
        said = _in_centimetres(figure) if figure else _in_unit(question.figure, plain[0].says["of"])
    if said and _fits(question.pending, said) and _only_answers(question, said, fixed):
        return _complete(question, said)
    return None


def _in_centimetres(figure: float) -> dict[str, Any]:
    """A bare number as the answer to "How far?"."""
    return {"gap_m": round(figure / 100, 6), "unit": "cm"}


def _in_unit(figure: float | None, unit: str) -> dict[str, Any]:
    """A unit as the answer to "Five what?"; nothing where no number waits for one."""
    if figure is None:
        return {}
    return {"gap_m": round(figure * METRES[unit], 6), "unit": "cm" if unit == "mm" else unit}


def _fits(pending: Note, said: dict[str, Any]) -> bool:
    """True when the waiting note has the fields that were said."""
    return isinstance(pending, JackSet) or set(said) <= set(type(pending).model_fields)


def _said(draft: Draft) -> dict[str, Any]:
    """What the draft says, by field."""
    said: dict[str, Any] = {}
    if draft.side:
        said["side"] = draft.side
    if draft.number:
        said["number"] = draft.number
    if len(draft.gaps) == 1:
        said |= {"gap_m": draft.gaps[0].metres, "unit": draft.gaps[0].unit}
    if draft.hour:
        said |= {"hour": draft.hour.hour, "hour_width": draft.hour.width}
    words = tuple(word for word in draft.remarks if word in DIRECTIONS)
    if words:
        said["remarks"] = words
    elif "touching" in draft.remarks and not draft.gaps:
        said["remarks"] = ("touching",)
    return said


def _only_answers(question: OpenQuestion, said: dict[str, Any], fixed: bool) -> bool:
    """True when nothing but the slot in doubt was said; after "no", whatever is put right in the note."""
    if question.slot != "yes or no":
        allowed = _allowed(question)
        if said.get("remarks") == ("touching",):
            return "touching" in allowed and set(said) == {"remarks"}
        return not allowed.isdisjoint(said) and set(said) - _repeated(question.pending, said) <= allowed
    if isinstance(question.pending, JackSet):
        return set(said) == {"gap_m", "unit"}
    whole = "gap_m" in said and ("hour" in said or "remarks" in said)
    return isinstance(question.pending, Where) and (fixed or not whole)


def _repeated(pending: Note, said: dict[str, Any]) -> set[str]:
    """The parts of its place that the waiting note has already: people say them again in an answer."""
    place = {"gap_m", "unit", "hour", "hour_width"}
    return {name for name in place & set(said) if getattr(pending, name, None) == said[name]}


def _allowed(question: OpenQuestion) -> set[str]:
    """The fields that an answer may fill: those of its slot; all of where, when nothing of it was said.

    The hour of a bowl in the ditch is the head's own, straight past the jack: nobody said it.
    """
    slot = question.slot
    if slot == "gap":
        pending = question.pending
        words = set(pending.remarks) if isinstance(pending, Where) else set()
        assumed = "in the ditch" in words
        bare = isinstance(pending, Where) and (assumed or pending.hour is None) and not DIRECTIONS & words
        return {"gap_m", "unit", "touching"} | ({"hour", "hour_width", "remarks"} if bare else set())
    if slot in ("hour", "left or right"):
        return {"hour", "hour_width", "remarks"}
    return {"side", "number"} if slot in ("side", "number") else set()


def _complete(question: OpenQuestion, said: dict[str, Any]) -> Meaning:
    for choice in question.choices:
        if _agrees(choice, said):
            return Meaning(choice)
    pending = question.pending
    if isinstance(pending, JackSet):
        return Meaning(pending.model_copy(update={"length_m": said["gap_m"]}))
    if "remarks" in said and isinstance(pending, Where):
        said = {**said, "remarks": tuple(dict.fromkeys((*pending.remarks, *said["remarks"])))}
    if "hour" in said and isinstance(pending, Where):
        fitting = [word for word in pending.remarks if fits(said["hour"], said["hour_width"], word)]
        said = {**said, "remarks": tuple(dict.fromkeys((*fitting, *said.get("remarks", ()))))}
    note = pending.model_copy(update=said)
    return Meaning(note, missing_slot(note), disputed_note(note))


def _agrees(choice: Note, said: dict[str, Any]) -> bool:
    """True when an offered note has what was said (a side word agrees with an hour on that side)."""
    fields = dict(choice)
    for name, value in said.items():
        if name in ("unit", "hour_width"):
            continue
        if name == "remarks" and isinstance(choice, Where) and choice.hour is not None:
            if not all(fits(choice.hour, choice.hour_width, word) for word in value):
                return False
        elif name == "remarks":
            if not set(value) <= set(fields.get(name, ())):
                return False
        elif fields.get(name) != value:
            return False
    return True
