"""The questions this stage asks back: what is missing, which of two, or yes or no."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

from voicecoach.phrasebook.book import PhraseBook
from voicecoach.understand.meaning import DIRECTIONS, fits
from voicecoach.understand.saying import ORDINALS, Sayer
from voicecoach.understand.values import (
    BowlName,
    EndFinished,
    Note,
    OpenQuestion,
    Remark,
    Side,
    Slot,
    TakenBack,
    Unclear,
    Where,
)

OPPOSITES: tuple[tuple[Remark, Remark], ...] = (("left", "right"), ("short", "past"))


class Difference(NamedTuple):
    """The one slot in which two notes differ, and the words for each."""

    slot: Slot
    words: tuple[str, str]


class Asker:
    """Words the questions, as the phrase book has them."""

    def __init__(self, book: PhraseBook, sayer: Sayer) -> None:
        self._asking = book.asking
        self._say = sayer

    def missing(self, note: Note, slot: Slot, figure: float | None = None) -> Unclear:
        """Asks for the one slot without which the note isn't whole; yes or no settles what it is about.

        Args:
            note: What was understood.
            slot: What it lacks.
            figure: The distance that was said without its unit.
        """
        if figure is not None:
            ask = self._asking["unit"].format(figure=self._say.figure(figure))
            ask = ask[:1].upper() + ask[1:]
            doubt = OpenQuestion(slot=slot, pending=note, ask=ask, figure=figure)
            return Unclear(why="incomplete", say=ask, doubt=doubt)
        ask = self._asking["missing"][_OF_ITS_OWN.get(type(note), slot)]
        doubt = (
            _yes_or_no(note, ask) if slot == "yes or no" else OpenQuestion(slot=slot, pending=note, ask=ask)
        )
        return Unclear(why="incomplete", say=ask, doubt=doubt)

    def contradiction(self, note: Where) -> Unclear:
        """The words for where can't all be right: offers both ways out."""
        choices, answers, slot = self._ways_out(note)
        ask = self._or(answers)
        doubt = OpenQuestion(slot=slot, choices=choices, answers=answers, pending=choices[0], ask=ask)
        return Unclear(why="contradiction", say=ask, doubt=doubt)

    def which(self, first: Note, second: Note) -> OpenQuestion | None:
        """Offers two notes that differ in one slot; None when they differ in more."""
        difference = self._difference(first, second)
        if difference is None:
            return None
        ask = self._or(difference.words)
        return OpenQuestion(
            slot=difference.slot, choices=(first, second), answers=difference.words, pending=first, ask=ask
        )

    def whose(self, note: Note) -> OpenQuestion:
        """Offers both sides for a bowl whose owner wasn't heard."""
        sides: tuple[Side, Side] = ("ours", "theirs")
        choices = (note.model_copy(update={"side": sides[0]}), note.model_copy(update={"side": sides[1]}))
        return OpenQuestion(slot="side", choices=choices, answers=sides, pending=note, ask=self._or(sides))

    def sure(self, note: Note, words: str) -> OpenQuestion:
        """Says the words back and asks yes or no: yes says that they were heard right, and no more."""
        ask = self._asking["sure"].format(words=words)
        return _yes_or_no(note, ask[:1].upper() + ask[1:])

    def unclear(self) -> Unclear:
        """Nothing could be made of it but that it was meant as a note."""
        return Unclear(why="unclear", say=self._asking["unclear"])

    def not_understood(self, words: str) -> Unclear:
        """It was meant as a note, and these are the words of it that mean nothing."""
        return Unclear(why="unclear", say=self._asking["not understood"].format(words=words))

    def _or(self, answers: tuple[str, str]) -> str:
        first, second = answers
        if first.endswith(" o'clock") and second.endswith(" o'clock"):
            first = first.removesuffix(" o'clock")
        ask: str = self._asking["which"].format(first=first, second=second)
        return ask[:1].upper() + ask[1:]

    def _ways_out(self, note: Where) -> tuple[tuple[Note, Note], tuple[str, str], Slot]:
        if note.hour is None:
            pair = next(pair for pair in OPPOSITES if {*pair} <= set(note.remarks))
            choices = (_without(note, {pair[1]}), _without(note, {pair[0]}))
            return choices, pair, "left or right" if "left" in pair else "choice"
        wrong = {word for word in note.remarks if not fits(note.hour, note.hour_width, word)}
        mirrored = 12 - note.hour if wrong & {"left", "right"} else (6 - note.hour) % 12
        kept = _without(note, wrong)
        turned = note.model_copy(update={"hour": mirrored or 12.0})
        turned = _without(turned, {w for w in note.remarks if not fits(mirrored or 12.0, note.hour_width, w)})
        said = (self._say.hour(note.hour, note.hour_width), self._say.hour(mirrored or 12.0, note.hour_width))
        return (kept, turned), said, "hour"

    def _difference(self, first: Note, second: Note) -> Difference | None:
        if type(first) is not type(second):
            return None
        one, other = dict(first), dict(second)
        slots = {name for name in one if one[name] != other[name]} - {"unit", "hour_width"}
        if len(slots) != 1:
            return None
        words = [self._words(slots, note) for note in (one, other)]
        slot = _SLOTS.get(next(iter(slots)))
        if slot is None or None in words or words[0] == words[1]:
            return None
        if slot == "left or right" and {*words} != {"left", "right"}:
            slot = "choice"
        return Difference(slot, (str(words[0]), str(words[1])))

    def _words(self, slots: set[str], note: dict[str, Any]) -> str | None:
        """The words for the slot in which two notes differ; None when it wasn't said in one of them."""
        name = next(iter(slots))
        value = note[name]
        if name == "remarks":
            return next((word for word in value if word in DIRECTIONS), None)
        if value is None or (name == "number" and value > len(ORDINALS)):
            return None
        say: dict[str, Callable[[], str]] = {
            "hour": lambda: self._say.hour(value, note.get("hour_width", 1.0)),
            "gap_m": lambda: self._say.gap(value, note.get("unit") or "m"),
            "length_m": lambda: self._say.gap(value, "m"),
            "number": lambda: ORDINALS[value - 1],
            "target": lambda: self._say.name(value) if isinstance(value, BowlName) else "the jack",
        }
        return say[name]() if name in say else str(value)


_OF_ITS_OWN: dict[type, str] = {TakenBack: "take back", EndFinished: "score"}
"""Notes whose yes or no has a question of its own."""
_SLOTS: dict[str, Slot] = {
    "side": "side",
    "number": "number",
    "gap_m": "gap",
    "length_m": "gap",
    "hour": "hour",
    "remarks": "left or right",
    "target": "choice",
    "ask": "choice",
}
"""The slot that each field of a note belongs to; others aren't asked for one by one."""


def _yes_or_no(note: Note, ask: str) -> OpenQuestion:
    """Files the note on "yes"."""
    return OpenQuestion(slot="yes or no", choices=(note,), answers=("yes",), pending=note, ask=ask)


def _without(note: Where, words: set[Any]) -> Any:
    return note.model_copy(update={"remarks": tuple(word for word in note.remarks if word not in words)})
