"""Calling practice: a bowl's place is given along and across, the learner calls it on the clock."""

from __future__ import annotations

import math
from collections.abc import Generator, Iterable, Sequence
from dataclasses import dataclass, field

from voicecoach.coach.marks import Mark
from voicecoach.coach.practice import Answering, Prompt, cue_in, placed, say, words
from voicecoach.coach.results import Result, of_marks
from voicecoach.describe import Preferences
from voicecoach.describe.bowls import bowl_name
from voicecoach.describe.distances import Family, family, worked_out
from voicecoach.describe.hours import spoken_hour, to_half
from voicecoach.describe.values import Sentence, Sentences
from voicecoach.head.clock import hour_of
from voicecoach.head.values import Picture
from voicecoach.hear.values import Heard
from voicecoach.phrasebook.numbers import cardinal, spoken
from voicecoach.session.talk import Talk
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Side
from voicecoach.value import Value

_LEVEL_M = 0.025
"""Nearer than this to level, or to the line, is said to be so."""


class Task(Value):
    """One bowl to be called."""

    side: Side
    number: int
    right_m: float
    """Middle of the bowl right of the jack's, metres."""
    past_m: float
    """Middle of the bowl past the jack's, metres."""
    reach_m: float = 0.0925
    """Both radii together, metres."""

    @property
    def gap_m(self) -> float:
        """Between nearest points."""
        return max(0.0, math.hypot(self.right_m, self.past_m) - self.reach_m)

    @property
    def hour(self) -> float:
        """On the clock face."""
        return hour_of(self.right_m, self.past_m)


@dataclass
class Calls:
    """A round of calling as it goes on."""

    tasks: Sequence[Task]
    understanding: Understanding
    prefs: Preferences
    drawn: bool = False
    """True when the head is drawn, so that the figures are not said."""
    marks: list[Mark] = field(default_factory=list)
    asked: int = 0
    """Tasks that were called; one that was left out counts as neither right nor wrong."""

    def go(self) -> Answering:
        """Ask for one bowl after another."""
        before: Sentences = (
            say("calling", "drawn" if self.drawn else "begin", count=cardinal(len(self.tasks))),
        )
        for task in self.tasks:
            after = yield from self._one(task, before)
            if after is None:
                return ()
            before = after
        return before

    def _one(self, task: Task, before: Sentences) -> Generator[Prompt, Heard | None, Sentences | None]:
        """Ask for one bowl until it is called; what to say of it, None to stop."""
        question = self._question(task)
        talk, asked = Talk(), (*before, question)
        while True:
            heard = yield Prompt(asked, talk.open)
            cue = cue_in(heard)
            if heard is None or cue == "stop":
                return None
            if cue == "again":
                asked = (question,)
                continue
            if cue == "skip":
                return (say("calling", "skipped", place=self._place(task)),)
            result = placed(talk, heard, self.understanding)
            talk, asked = result.talk, result.say or (say("calling", "want"),)
            if result.lie is not None:
                self.asked += 1
                return self._marked(task, result.lie.gap_m or 0.0, result.lie.hour or 12.0)

    def result(self, at: str) -> Result:
        """The round as it is kept."""
        return Result(
            at=at,
            kind="calling",
            bowls=len(self.tasks),
            right=sum(mark.points for mark in self.marks),
            of=2 * self.asked,
            **of_marks(self.marks),
        )

    def _question(self, task: Task) -> Sentence:
        kind = family(None, self.prefs.units)
        name = bowl_name(task.side, task.number, self.prefs)
        if self.drawn:
            return say("calling", "drawn bowl", name=name)
        along = _axis(task.past_m, kind, "past", "short", "level")
        return say(
            "calling",
            "bowl",
            name=name,
            along=along,
            across=_axis(task.right_m, kind, "right", "left", "line"),
        )

    def _marked(self, task: Task, gap_m: float, hour: float) -> Sentences:
        mark = Mark(said_gap_m=gap_m, said_hour=hour, true_gap_m=task.gap_m, true_hour=task.hour)
        self.marks.append(mark)
        kind = family(None, self.prefs.units)
        truth = say("calling", "truth", place=self._place(task))
        return (truth, _distance(mark, kind), _hour(mark))

    def _place(self, task: Task) -> str:
        kind = family(None, self.prefs.units)
        return f"{worked_out(task.gap_m, 0.03, kind)}, {spoken_hour(to_half(task.hour))}"


def tasks(seen: Picture) -> tuple[Task, ...]:
    """Every bowl of a head that has a place, in the order called."""
    reach_m = (seen.head.game.bowl_mm + seen.head.game.jack_mm) / 2000
    return tuple(
        Task(side=lie.side, number=lie.number, right_m=lie.across_m, past_m=lie.along_m, reach_m=reach_m)
        for lie in seen.lies
        if lie.across_m is not None and lie.along_m is not None
    )


def by_chance(places: Iterable[tuple[float, float]], sides: Iterable[tuple[Side, int]]) -> tuple[Task, ...]:
    """Tasks at some places, the sides taking turns."""
    return tuple(
        Task(side=side, number=number, right_m=right_m, past_m=past_m)
        for (right_m, past_m), (side, number) in zip(places, sides, strict=True)
    )


def _axis(length_m: float, kind: Family, plus: str, minus: str, level: str) -> str:
    if abs(length_m) < _LEVEL_M:
        return words("calling", level)
    return words("calling", plus if length_m > 0 else minus, length=worked_out(abs(length_m), 0.03, kind))


def _distance(mark: Mark, kind: Family) -> Sentence:
    if mark.distance_right:
        return say("calling", "distance right")
    off_m = mark.said_gap_m - mark.true_gap_m
    way = words("by", "long" if off_m > 0 else "short")
    return say("calling", "distance off", off=worked_out(abs(off_m), 0.03, kind), way=way)


def _hour(mark: Mark) -> Sentence:
    if mark.hour_right:
        return say("calling", "hour right")
    halves = max(2, round(abs(mark.hour_off) * 2))
    off = words("by", "hour") if halves == 2 else words("by", "hours", count=spoken(halves / 2))
    return say("calling", "hour off", off=off, way=words("by", "late" if mark.hour_off > 0 else "early"))
