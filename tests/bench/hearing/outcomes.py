"""What the program makes of what it heard: filed, asked about, refused or dropped."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from tests.bench.hearing.trials import Trial
from tests.bench.hearing.truth import means
from tests.bench.hearing.truthful import meant_after, plainly, truthful
from voicecoach.hear.values import Heard
from voicecoach.understand.reading import Understanding
from voicecoach.understand.twice import unsure
from voicecoach.understand.values import Corrected, Expected, Maybe, Note, OpenQuestion, Ranked, Side
from voicecoach.value import Value

After = Literal["right", "wrong"]
Outcome = Literal["right", "wrong", "asked", "unclear", "dropped"]


class Verdict(Value):
    """What came of one trial."""

    outcome: Outcome
    probability: float = 0.0
    """The program's own belief in its likeliest meaning."""
    likeliest_right: bool = False
    question: OpenQuestion | None = None
    unsure: tuple[Maybe, ...] = ()
    """What may have been meant, where it was asked about."""


def judge(understanding: Understanding, trial: Trial, your: Side | None = None) -> Verdict:
    """Take the utterances of one trial as the session would, and compare with what was meant.

    The pieces of a note that is said slowly answer the questions that the pieces before them raise.

    Args:
        understanding: What reads them.
        trial: The utterances, and what was meant.
        your: Whose bowls the caller's "your" means, where a session knows it already.
    """
    filed: list[Note] = []
    verdict = Verdict(outcome="dropped")
    for place, heard in enumerate(trial.heard):
        expected = Expected(
            after_s=_after(trial, place) if filed else None,
            murmured_s=_after(trial, place) if place and verdict.outcome == "dropped" else None,
            open=verdict.question,
            unsure=verdict.unsure,
            your=your,
        )
        read = understanding.read(heard, expected)
        if isinstance(read, Ranked) and read.doubt is None:
            filed = _amended(filed, read.notes[0])
            verdict = _verdict(read, trial, "right")
        elif isinstance(read, Ranked):
            verdict = _verdict(read, trial, "asked")
        elif read.why != "chatter":
            outcome: Outcome = "asked" if read.doubt else "unclear"
            verdict = Verdict(outcome=outcome, question=read.doubt, unsure=unsure(read))
    if not filed:
        return verdict
    right = len(filed) == 1 and means(filed[0], trial.meaning)
    return verdict.model_copy(update={"outcome": "right" if right else "wrong"})


def _verdict(read: Ranked, trial: Trial, outcome: Outcome) -> Verdict:
    return Verdict(
        outcome=outcome,
        probability=read.probabilities[0],
        likeliest_right=means(read.notes[0], trial.meaning),
        question=read.doubt,
        unsure=unsure(read),
    )


def _after(trial: Trial, place: int) -> float | None:
    before, now = trial.heard[place - 1], trial.heard[place]
    if before.ended_s is None or now.started_s is None:
        return None
    return max(0.0, now.started_s - before.ended_s)


def _amended(filed: list[Note], note: Note) -> list[Note]:
    """A correction right after a note changes that note; anything else stands beside it."""
    if not filed or not isinstance(note, Corrected):
        return [*filed, note]
    said = {
        name: value
        for name, value in note.model_dump(exclude={"kind", "target", "confirmed"}).items()
        if value not in (None, ()) and name in type(filed[-1]).model_fields
    }
    return [*filed[:-1], filed[-1].model_copy(update=said)]


Hear = Callable[[str | None, OpenQuestion | None], tuple[Heard, ...]]
"""Let the same voice say something (None: the note again) while a question is open, or none."""


def answered(understanding: Understanding, trial: Trial, verdict: Verdict, hear: Hear) -> After | None:
    """What is filed once the question has been answered truthfully; None where nothing is yet.

    To "please say it again, plainly", and where no answer fits, the note is said in its plainest form.
    """
    question = verdict.question
    if question is None and verdict.outcome != "unclear":
        return None
    answer = truthful(trial.meaning, question) if question else None
    for one in hear(answer or plainly(trial.meaning), question):
        read = understanding.read(one, Expected(open=question, unsure=verdict.unsure))
        if isinstance(read, Ranked) and read.doubt is None:
            return "right" if means(read.notes[0], meant_after(trial.meaning, question)) else "wrong"
    return None
