"""Two sessions that hear an afternoon, one of them with the call word on, and what they made of it."""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import dataclass, field

from voicecoach.hear.values import Heard
from voicecoach.session.settings import Manner
from voicecoach.session.talk import Talk
from voicecoach.session.turn import When, lapse, turn
from voicecoach.session.values import Entry
from voicecoach.understand.reading import Understanding
from voicecoach.value import Value


class RealNote(Value):
    """A real note: for whom it is, and where it lies on the audio clock."""

    call_word: bool
    started_s: float
    ended_s: float

    def holds(self, heard: Heard) -> bool:
        """True when the utterance is this note."""
        return heard.ended_s is not None and self.started_s < heard.ended_s < self.ended_s + 1


class Minute(Value):
    """All that was heard in one minute; it can be decided anew without being heard again."""

    number: int
    scene: str
    real: RealNote | None
    heard: tuple[Heard, ...] = ()
    work_s: float = 0.0
    """Processor time."""


@dataclass
class Sitting:
    """One session that hears everything: what it made of it, by kind of minute."""

    call_word: bool
    talk: Talk = field(default_factory=Talk)
    outcomes: dict[str, Counter[str]] = field(default_factory=lambda: defaultdict(Counter))
    filed: list[str] = field(default_factory=list)
    """What was filed for nothing: where, the words heard, the kind of note."""

    def __post_init__(self) -> None:
        self.begin()

    def begin(self) -> None:
        """A new game: nothing on the head, no question open."""
        self.talk = Talk(manner=Manner(call_word=self.call_word))

    def hear(self, heard: Heard, understanding: Understanding) -> Entry:
        """One utterance, after whatever question has lapsed."""
        self.talk, _ = lapse(self.talk, at="", now_s=heard.started_s or 0.0)
        self.talk, entry = turn(self.talk, heard, understanding, When(at=""))
        return entry

    def count(self, scene: str, entry: Entry) -> None:
        """Talk was heard, and this came of it."""
        self.outcomes[scene][entry.outcome] += 1
        if entry.outcome == "noted" and entry.note:
            self.filed.append(f"{scene}: {entry.heard.text} -> {entry.note.kind}")

    def total(self, outcome: str) -> int:
        """How often something came of talk, over all kinds of minute."""
        return sum(counts[outcome] for counts in self.outcomes.values())

    def add(self, other: Sitting) -> None:
        """Count what came of other minutes as well."""
        for scene, counts in other.outcomes.items():
            self.outcomes[scene] += counts
        self.filed += other.filed


class Afternoon:
    """Both sessions, and what came of the real notes."""

    def __init__(self) -> None:
        self.open, self.called = Sitting(call_word=False), Sitting(call_word=True)
        self.minutes: Counter[str] = Counter()
        self.work_s: dict[str, float] = defaultdict(float)
        self.late_s: list[float] = []
        self.said = self.taken = self.twice = 0
        self._taken_now = 0

    def begin(self, scene: str, real: RealNote | None) -> None:
        """A minute begins; one with a real note in it begins a new game."""
        self.minutes[scene] += 1
        self._taken_now = 0
        if real:
            self.open.begin()
            self.called.begin()
            self.said += 1

    def hear(self, heard: Heard, scene: str, real: RealNote | None, understanding: Understanding) -> None:
        """Both sessions take the utterance."""
        for sitting in (self.open, self.called):
            entry = sitting.hear(heard, understanding)
            if not (real and real.holds(heard)):
                sitting.count(scene, entry)
            elif sitting.call_word != real.call_word:
                if sitting.call_word:
                    sitting.count(scene, entry)
            elif entry.outcome == "noted":
                self._take((heard.ended_s or 0.0) - real.ended_s)

    def _take(self, late_s: float) -> None:
        """The real note was filed."""
        self._taken_now += 1
        self.taken += self._taken_now == 1
        self.twice += self._taken_now == 2
        self.late_s.append(late_s)

    def take(self, minute: Minute, understanding: Understanding) -> None:
        """Decide of a whole minute that was heard before."""
        self.begin(minute.scene, minute.real)
        self.work_s[minute.scene] += minute.work_s
        for heard in minute.heard:
            self.hear(heard, minute.scene, minute.real, understanding)

    def add(self, other: Afternoon) -> None:
        """Count what came of other minutes as well."""
        self.open.add(other.open)
        self.called.add(other.called)
        self.minutes += other.minutes
        for scene, work_s in other.work_s.items():
            self.work_s[scene] += work_s
        self.late_s += other.late_s
        self.said, self.taken = self.said + other.said, self.taken + other.taken
        self.twice += other.twice
