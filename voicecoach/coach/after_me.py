"""Notes said after the program, word for word: so it learns a voice, and tells which forms the voice carries.

Since the words are known, each note teaches. Each is read first, as a stranger's and as that of a voice of
which the notes before it are known: so what was gained is counted on notes that were not learned yet.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from voicecoach.coach.practice import Answering, Prompt, cue_in, say
from voicecoach.describe.values import Sentence, Sentences
from voicecoach.hear.values import Heard
from voicecoach.phrasebook.numbers import cardinal, ordinal
from voicecoach.understand.reading import Understanding
from voicecoach.understand.slips import Slips, added, means
from voicecoach.understand.values import Expected, Note, Ranked

NOTES = 16
"""As many are said in two minutes, each twice: by the program and after it."""
WELL, BADLY = 0.85, 0.6
"""Shares of the decodes that write a form as it was said: from the first on the voice carries it well, below
the second another form is better."""
ENOUGH = 3
"""A form that was said less often says nothing."""
GAPS = (
    *(f"{cardinal(figure)} centimetres" for figure in (80, 18, 60, 16, 30, 13, 45, 90)),
    *("one metre twenty", "two metres", "half a metre", "three metres forty"),
    *("two feet", "a foot and a half", "four feet", "three feet"),
)
"""Distances; teens and their tens sound alike."""
HALF_PAST = 4
"""Every so manieth note has a half-hour."""


@dataclass(frozen=True)
class Piece:
    """A part of a note, in the words that are said."""

    form: str
    """What it is an example of, as it is named aloud."""
    words: str


Line = tuple[Piece, ...]


def lines(count: int, chance: random.Random) -> list[Line]:
    """So many notes in the plainest form, every piece about equally often."""
    gaps = chance.sample(GAPS, len(GAPS))
    hours = chance.sample(range(1, 13), 12)
    return [_line(at, gaps[at % len(gaps)], hours[at % 12]) for at in range(count)]


def _line(at: int, gap: str, hour: int) -> Line:
    side, number = ("our", "their")[at % 2], ordinal(at // 2 % 4 + 1)
    half = at % HALF_PAST == HALF_PAST - 1
    unit = next(unit for unit in ("centimetres", "metre", "feet", "foot") if unit in gap)
    named = {"metre": "metres", "foot": "feet"}.get(unit, unit)
    said = f"half past {cardinal(hour)}" if half else f"{cardinal(hour)} o'clock"
    return (
        Piece(side, side),
        Piece(number, number),
        Piece(named, gap),
        Piece("half past" if half else "o'clock", said),
    )


def text(line: Line) -> str:
    """The note as it is said."""
    side, number, gap, hour = (piece.words for piece in line)
    return f"{side} {number}, {gap}, {hour}"


@dataclass
class AfterMe:
    """A round of it as it goes on."""

    said: Sequence[Line]
    stranger: Understanding
    known: Understanding
    """Knows the voice as far as it was learned before; learns on."""
    right: list[tuple[bool, bool]] = field(default_factory=list)
    """For each note that was heard: whether it was right at once, as a stranger's and as a known voice's."""
    _carried: Counter[str] = field(default_factory=Counter)
    _decodes: Counter[str] = field(default_factory=Counter)
    _times: Counter[str] = field(default_factory=Counter)

    @property
    def slips(self) -> Slips:
        """What is known of the voice by now."""
        return self.known.voice.slips

    def go(self) -> Answering:
        """Say one note after another, and listen to each."""
        before: Sentences = (say("after me", "begin", count=cardinal(len(self.said))),)
        for line in self.said:
            asked = say("after me", "say", note=text(line))
            prompt: Sentences = (*before, asked)
            while True:
                heard = yield Prompt(prompt)
                cue = cue_in(heard)
                prompt = (asked,)
                if cue != "again":
                    break
            if heard is None or cue == "stop":
                break
            before = () if cue == "skip" else self._heard(line, heard)
        return self.outcome()

    def outcome(self) -> Sentences:
        """Which forms the voice carries well, which to avoid, and what was gained."""
        if not self.right:
            return (say("after me", "nothing"),)
        shares = {
            form: self._carried[form] / self._decodes[form]
            for form in self._decodes
            if self._times[form] >= ENOUGH
        }
        well = [form for form, share in shares.items() if share >= WELL]
        badly = [form for form, share in shares.items() if share < BADLY]
        return (*_named("well", well), *_named("badly", badly), *self._gained())

    def _heard(self, line: Line, heard: Heard) -> Sentences:
        """Take one note: whether it was right, what it carried, and what it teaches."""
        if not heard.readings:
            return (say("after me", "typed"),)
        meant = self._meant(line)
        self.right.append((_is_right(self.stranger, heard, meant), _is_right(self.known, heard, meant)))
        taught = self.known.voice.taught_by_words(heard, text(line))
        self.known.voice.slips = added(self.slips, taught)
        for words in self.stranger.voice.lines(heard):
            for piece in line:
                self._decodes[piece.form] += 1
                self._carried[piece.form] += f" {self.stranger.voice.written(piece.words)} " in f" {words} "
        self._times.update(piece.form for piece in line)
        return ()

    def _meant(self, line: Line) -> Note:
        read = self.stranger.read(Heard(text=text(line)), Expected())
        assert isinstance(read, Ranked), "what is said after the program is a whole note"
        return read.notes[0]

    def _gained(self) -> Iterator[Sentence]:
        stranger, known = (sum(column) for column in zip(*self.right, strict=True))
        yield say("after me", "right", right=cardinal(stranger), count=cardinal(len(self.right)))
        if known > stranger:
            yield say("after me", "gained", right=cardinal(known))
        if self.slips:
            first = self.slips[0]
            yield say("after me", "slip", said=first.said, heard=first.heard)


def _named(key: str, forms: Sequence[str]) -> Iterator[Sentence]:
    if forms:
        yield say("after me", key, forms=", ".join(forms))


def _is_right(understanding: Understanding, heard: Heard, meant: Note) -> bool:
    read = understanding.read(heard, Expected())
    return isinstance(read, Ranked) and read.doubt is None and means(read.notes[0], meant)
