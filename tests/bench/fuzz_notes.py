"""Random and mutated notes through understand and head: one turn after another, from one seed."""

from __future__ import annotations

import random
import re
import time
from collections import Counter

from tests.bench import fuzz_mutate
from tests.bench.fuzz_mutate import ODD
from tests.bench.random_notes import Notes
from voicecoach import phrasebook
from voicecoach.head import picture
from voicecoach.hear.values import Heard, Hypothesis, Word
from voicecoach.session.talk import Talk, resume
from voicecoach.session.turn import When, file_note, lapse, turn
from voicecoach.session.values import Entry
from voicecoach.session.view import json_line, turn_line
from voicecoach.understand.notes.any_setting import AnySetting
from voicecoach.understand.reading import Understanding

A_GAME = 50
"""Notes until the next game begins, from nothing."""
A_WORD = re.compile(r"[a-z']+|\[unk\]")
"""All that a recogniser can give."""
SLOWEST_S = 2.0
"""Processor time that no note may take."""


class Talker:
    """Says anything at all, as typed lines, as a recogniser's readings, and as notes that nobody spoke."""

    def __init__(self, seed: int) -> None:
        book = phrasebook.load()
        self._dice = random.Random(seed)
        self._notes = Notes(seed)
        self._lines = [example.sentence for example in book.examples()] + book.sample(4, seed)
        self._words = [*sorted(book.words()), *book.decoys()]
        self._clock_s = 0.0
        self.understanding = Understanding(book)

    def say(self, talk: Talk) -> tuple[Talk, Entry]:
        """The next note, whatever it is, taken."""
        when = When(at="2026-06-01T14:00:00+01:00")
        if self._dice.random() < 0.1:
            return file_note(talk, self._notes.draw(), "\x1b]0;a file\x07", when)
        if talk.open and self._dice.random() < 0.3:
            answers = talk.open.answers or phrasebook.load().answers(talk.open) or ("yes",)
            return turn(talk, Heard(text=self._dice.choice(list(answers))), self.understanding, when)
        self._clock_s += self._dice.uniform(0.5, 6)
        talk, _ = lapse(talk, at=when.at, now_s=self._clock_s)
        heard = self._typed() if self._dice.random() < 0.7 else self._heard()
        return turn(talk, heard, self.understanding, when)

    def _line(self) -> str:
        way = self._dice.random()
        if way < 0.7:
            return fuzz_mutate.words(self._lines, self._dice)
        if way < 0.85:
            return " ".join(self._dice.choices(self._words, k=self._dice.randint(0, 12)))
        if way < 0.95:
            return fuzz_mutate.text(self._dice.choice(self._lines), self._dice)
        return " ".join(self._dice.choices(ODD, k=self._dice.randint(1, 4)))

    def _typed(self) -> Heard:
        return Heard(text=self._line())

    def _heard(self) -> Heard:
        lines = [" ".join(A_WORD.findall(self._line())) for _ in range(self._dice.randint(1, 4))]
        readings = tuple(
            Hypothesis(
                decode=self._dice.choice(("sentences", "words", "sentences-gated")),
                text=line,
                weight=self._dice.random(),
            )
            for line in lines
        )
        heard = tuple(Word(text=word, confidence=self._dice.random()) for word in lines[0].split())
        started = self._clock_s
        return Heard(
            text=lines[0],
            words=heard,
            readings=readings,
            source="microphone",
            started_s=started,
            ended_s=started + 1,
        )


def run(count: int, seed: int) -> Counter[str]:
    """So many notes; raises with the seed, the number and the words where one does what it may not."""
    talker, came = Talker(seed), Counter[str]()
    talk, entries = Talk(), list[Entry]()
    for number in range(count):
        began = time.process_time()
        try:
            talk, entry = talker.say(talk)
            entries.append(entry)
            if number % A_GAME == A_GAME - 1:
                _holds(talk, entries)
                talk, entries = Talk(), []
        except Exception as problem:
            said = entries[-1].heard.text if entries else ""
            raise AssertionError(f"seed {seed}, note {number}, after {said!r}: {problem!r}") from problem
        spent = time.process_time() - began
        assert spent < SLOWEST_S, f"seed {seed}, note {number}: {spent:.1f} s for {entry.heard.text!r}"
        came[entry.outcome] += 1
        _speakable(entry, f"seed {seed}, note {number}")
    return came


def _holds(talk: Talk, entries: list[Entry]) -> None:
    """A game's journal makes the same head again, and its last turn can be printed."""
    kept = [Entry.model_validate_json(entry.model_dump_json()) for entry in entries]
    assert resume(kept).play == talk.play, "the journal makes another head"
    json_line(turn_line(entries[-1], picture(talk.play.head)))


def _speakable(entry: Entry, where: str) -> None:
    """What is spoken is plain words, whatever was said."""
    own_words = isinstance(entry.note, AnySetting)
    for sentence in (*entry.say, *entry.say_to_player):
        assert sentence.text.isascii(), f"{where}: {sentence.text!r}"
        assert sentence.text.isprintable(), f"{where}: {sentence.text!r}"
        assert own_words or not any(letter.isdigit() for letter in sentence.text), (
            f"{where}: {sentence.text!r}"
        )
