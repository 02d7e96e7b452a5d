"""Answers to questions about a head, read and judged."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from voicecoach.coach.asked import Asked, Want
from voicecoach.coach.marks import Mark
from voicecoach.coach.practice import data, placed
from voicecoach.describe.values import Sentences
from voicecoach.hear.values import Heard
from voicecoach.phrasebook.numbers import cardinal
from voicecoach.session.talk import Talk
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import BowlName, Expected, Question, Ranked, Side

MOST = 20
"""The largest count that can be answered: more bowls than any end has."""


@dataclass(frozen=True)
class Judged:
    """What came of an answer; `right` is None while it isn't an answer yet."""

    right: bool | None
    mark: Mark | None = None
    talk: Talk = field(default_factory=Talk)
    """For a place that is asked back about: the talk so far."""
    say: Sentences = ()


def judge(asked: Asked, heard: Heard, talk: Talk, understanding: Understanding) -> Judged:
    """Hold an answer against the truth."""
    if asked.want == "where":
        return _where(asked, heard, talk, understanding)
    return _READ[asked.want](asked, heard, understanding)


def _whose(asked: Asked, heard: Heard, _understanding: Understanding) -> Judged:
    words = set(heard.text.lower().replace(",", " ").split())
    sides: set[Side] = {side for side, said in data()["sides"].items() if words & set(said)}
    return Judged(sides == {asked.side} if len(sides) == 1 else None)


def _how_many(asked: Asked, heard: Heard, _understanding: Understanding) -> Judged:
    words = heard.text.lower().split()
    named = {cardinal(count): count for count in range(MOST + 1)} | {"none": 0, "no": 0, "zero": 0}
    counts = {named[word] for word in words if word in named} | {
        int(word) for word in words if word.isdecimal()
    }
    return Judged(counts == {asked.count} if len(counts) == 1 else None)


def _which(asked: Asked, heard: Heard, understanding: Understanding) -> Judged:
    name = named(heard, understanding)
    return Judged(None if name is None else name == asked.bowl)


def named(heard: Heard, understanding: Understanding) -> BowlName | None:
    """The bowl that an answer names, by the words that name one in a question."""
    text = heard.text.lower().removeprefix("it's ").removeprefix("where is ")
    read = understanding.read(Heard(text=f"where is {text}"), Expected())
    note = read.notes[0] if isinstance(read, Ranked) else None
    if not isinstance(note, Question) or note.side is None or note.number is None:
        return None
    return BowlName(side=note.side, number=note.number)


def _where(asked: Asked, heard: Heard, talk: Talk, understanding: Understanding) -> Judged:
    result = placed(talk, heard, understanding)
    lie = result.lie
    if lie is None:
        return Judged(None, talk=result.talk, say=result.say)
    mark = Mark(
        said_gap_m=lie.gap_m or 0.0,
        said_hour=lie.hour or 12.0,
        true_gap_m=asked.gap_m or 0.0,
        true_hour=asked.hour or 12.0,
    )
    return Judged(mark.points == 2, mark)


_READ: dict[Want, Callable[[Asked, Heard, Understanding], Judged]] = {
    "whose": _whose,
    "how many": _how_many,
    "which": _which,
}
