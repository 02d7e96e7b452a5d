"""Picturing practice: a head is read, then questions about it are answered, or it is said back."""

from __future__ import annotations

from collections.abc import Generator, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

from voicecoach import describe
from voicecoach.coach.asked import Asked
from voicecoach.coach.judged import judge
from voicecoach.coach.marks import Mark
from voicecoach.coach.practice import Answering, Prompt, cue_in, data, placed, say, words
from voicecoach.coach.results import Result, of_marks
from voicecoach.describe import Preferences
from voicecoach.describe.bowls import bowl_name, by_gap
from voicecoach.describe.values import Sentence, Sentences
from voicecoach.head.values import Lie, Picture
from voicecoach.hear.values import Heard
from voicecoach.phrasebook.numbers import cardinal
from voicecoach.session.talk import Talk
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import OpenQuestion, Question, Side

POINTS = 3
"""For each bowl said back: that it is there, its distance, its hour."""
APART = "ours and then theirs"


def forms() -> tuple[str, ...]:
    """The ways in which a head can be read, by their names."""
    return tuple(data()["forms"])


def read_out(seen: Picture, form: str, prefs: Preferences) -> Sentences:
    """The head in one of the forms."""
    settings: dict[str, Any] = data()["forms"][form]
    chosen = prefs.model_copy(
        update={"form": "head", "groups": False, "terse": False, "hour_first": False, **settings}
    )
    if form == APART:
        asks: tuple[Literal["ours", "theirs"], ...] = ("ours", "theirs")
        sides = [describe.answer(Question(ask=side), seen, chosen, None) for side in asks]
        return (describe.sum_up(seen, chosen), *sides[0], *sides[1])
    return describe.answer(Question(ask="head"), seen, chosen, None)


@dataclass
class Memory:
    """A round of picturing as it goes on."""

    seen: Picture
    form: str
    understanding: Understanding
    prefs: Preferences
    questions: Sequence[Asked] = ()
    """What is asked; nothing for a head that is said back."""
    right: int = 0
    of: int = 0
    marks: list[Mark] = field(default_factory=list)
    unprinted: int = 0
    """Sentences of the next prompt that are to be remembered, from its first on."""

    def go(self) -> Answering:
        """Read the head, then ask, or hear it said back."""
        count = cardinal(len(by_gap(self.seen)))
        opening = say("picturing", "begin", form=self.form, count=count)
        heading = (opening, *read_out(self.seen, self.form, self.prefs))
        self.unprinted = len(heading)
        return (yield from self._asked(heading) if self.questions else self._back(heading))

    def _prompt(self, asked: Sentences, open_: OpenQuestion | None) -> Prompt:
        """A prompt; with the first one the head is heard, which is to be remembered."""
        unprinted, self.unprinted = self.unprinted, 0
        return Prompt(asked, open_, unprinted)

    def result(self, at: str) -> Result:
        """The round as it is kept."""
        return Result(
            at=at,
            kind="questions" if self.questions else "saying back",
            bowls=len(by_gap(self.seen)),
            form=self.form,
            right=self.right,
            of=self.of,
            **of_marks(self.marks),
        )

    def _asked(self, before: Sentences) -> Answering:
        for question in self.questions:
            after = yield from self._one(question, before)
            if after is None:
                return ()
            before = after
        return before

    def _one(self, question: Asked, before: Sentences) -> Generator[Prompt, Heard | None, Sentences | None]:
        """Ask until there is an answer; what to say of it, None to stop."""
        text = Sentence(text=question.text)
        talk, asked = Talk(), (*before, text)
        while True:
            heard = yield self._prompt(asked, talk.open or question.open)
            cue = cue_in(heard)
            if heard is None or cue == "stop":
                return None
            if cue == "again":
                asked = (text,)
                continue
            if cue == "skip":
                return (say("picturing", "skipped", truth=question.truth),)
            judged = judge(question, heard, talk, self.understanding)
            if judged.right is not None:
                return self._judged(question, judged.right, judged.mark)
            talk = judged.talk
            asked = judged.say or (say("picturing", "want", what=words("picturing", question.want)),)

    def _judged(self, question: Asked, right: bool, mark: Mark | None) -> Sentences:
        self.right, self.of = self.right + right, self.of + 1
        if mark is not None:
            self.marks.append(mark)
        return (say("picturing", "right") if right else say("picturing", "wrong", truth=question.truth),)

    def _back(self, before: Sentences) -> Answering:
        """Hear the head said back, bowl by bowl, until there is no more."""
        wanted = {(lie.side, lie.number): lie for lie in by_gap(self.seen)}
        self.of = POINTS * len(wanted)
        found: dict[tuple[Side, int], Mark] = {}
        talk, asked = Talk(), (*before, say("picturing", "back"))
        while len(found) < len(wanted):
            heard = yield self._prompt(asked, talk.open)
            cue = cue_in(heard)
            if heard is None or cue in ("stop", "finished"):
                break
            if cue in ("again", "skip"):
                asked = (say("picturing", "back"),)
                continue
            result = placed(talk, heard, self.understanding)
            talk = result.talk
            asked = result.say or (say("calling", "want"),)
            if result.lie is not None:
                asked = self._placed(result.lie, wanted, found)
        return self._told(wanted, found)

    def _placed(
        self, lie: Lie, wanted: dict[tuple[Side, int], Lie], found: dict[tuple[Side, int], Mark]
    ) -> Sentences:
        name = bowl_name(lie.side, lie.number, self.prefs)
        true = wanted.get((lie.side, lie.number))
        if true is None:
            return (say("picturing", "not there", name=name),)
        found[lie.side, lie.number] = Mark(
            said_gap_m=lie.gap_m or 0.0,
            said_hour=lie.hour or 12.0,
            true_gap_m=true.gap_m or 0.0,
            true_hour=true.hour_exact or 12.0,
        )
        return (say("picturing", "taken", name=name),)

    def _told(self, wanted: dict[tuple[Side, int], Lie], found: dict[tuple[Side, int], Mark]) -> Sentences:
        """What was left out, and what lay elsewhere."""
        self.marks = list(found.values())
        self.right = sum(1 + mark.points for mark in found.values())
        left = [bowl_name(*name, self.prefs) for name in wanted if name not in found]
        missing = (say("picturing", "missing", names=", ".join(left)),) if left else ()
        wrong = [wanted[name] for name, mark in found.items() if mark.points < POINTS - 1]
        lists = [describe.answer(_ask(lie), self.seen, self.prefs, None) for lie in wrong]
        return (*missing, *(sentence for said in lists for sentence in said))


def _ask(lie: Lie) -> Question:
    return Question(ask="bowl", side=lie.side, number=lie.number)
