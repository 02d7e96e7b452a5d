"""From what was heard to what was meant: the stage's front door."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from voicecoach.hear.values import Heard
from voicecoach.phrasebook.book import PhraseBook
from voicecoach.understand import pieces
from voicecoach.understand.asking import ask_for, ask_which
from voicecoach.understand.chart import Chart, Index, Maker
from voicecoach.understand.commands import commands, remark
from voicecoach.understand.free import free
from voicecoach.understand.placing import Meaning
from voicecoach.understand.values import Expected, Ranked, Unclear
from voicecoach.understand.words import Writer

FILLER_COST = 0.4


class Understanding:
    """Reads utterances with one phrase book."""

    def __init__(self, book: PhraseBook) -> None:
        self._book = book
        self._index = Index(book)
        self._writer = Writer(book)
        self._openings = [tuple(filler.split()) for filler in book.fillers["opening"]]
        self._closings = [tuple(filler.split()) for filler in book.fillers["closing"]]
        self._meanings = lru_cache(maxsize=4096)(self._read_text)

    def read(self, heard: Heard, expected: Expected) -> Ranked | Unclear:
        """The meanings of one utterance, or why there is none."""
        meanings = self._meanings(heard.text, expected)
        if not meanings:
            return Unclear(why="chatter")
        best = meanings[0][1]
        if best.disputed:
            return ask_which(best.note)
        if best.missing:
            return ask_for(best.note, best.missing)
        return Ranked(notes=(best.note,), probabilities=(1.0,))

    def is_whole(self, text: str, expected: Expected) -> bool:
        """True when these words are already a whole note, so that the ear need not wait for more."""
        meanings = self._meanings(text, expected)
        return bool(meanings) and not meanings[0][1].missing and not meanings[0][1].disputed

    def _read_text(self, text: str, expected: Expected) -> tuple[tuple[float, Meaning], ...]:
        words = self._writer.words(text)
        chart = Chart(self._index, self._makers(expected), words)
        return tuple(sorted(self._find(chart, expected), key=lambda pair: pair[0]))

    def _find(self, chart: Chart, expected: Expected) -> Iterator[tuple[float, Meaning]]:
        """Every meaning of the line, with more or fewer of the small words around it cut off."""
        length = len(chart.words)
        starts = [0, *(len(said) for said in self._openings if tuple(chart.words[: len(said)]) == said)]
        tails = [0, *(len(said) for said in self._closings if tuple(chart.words[-len(said) :]) == said)]
        for end in (length - tail for tail in tails):
            cut = FILLER_COST * (length - end)
            begins = [start for start in starts if start < end]
            if not begins:
                continue
            for cost, start, meaning in free(self._book, chart, begins, end, expected):
                yield cost + cut + FILLER_COST * start, meaning
            for start in begins:
                found = [*commands(self._index, chart, start, end, expected), *remark(chart, start, end)]
                for cost, meaning in found:
                    yield cost + cut + FILLER_COST * start, meaning

    def _makers(self, expected: Expected) -> dict[str, Maker]:
        return {
            "whole": pieces.whole,
            "amount": pieces.amount,
            "gap": pieces.gap_maker(expected.bowl_m),
            "hour": pieces.hour,
        }
