"""Every meaning of one line of words."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from voicecoach.phrasebook.book import PhraseBook
from voicecoach.understand import pieces
from voicecoach.understand.answering import answers
from voicecoach.understand.chart import Chart, How, Maker
from voicecoach.understand.commands import commands, free_words
from voicecoach.understand.free import MOST_ODD, free
from voicecoach.understand.index import Index
from voicecoach.understand.matching import Matchers
from voicecoach.understand.meaning import Meaning
from voicecoach.understand.values import Expected
from voicecoach.understand.words import Writer

FILLER_COST = 0.4
"""For each small word cut off before or after a note."""

EDGES = 4
"""So many small words around a whole sentence are passed over where it is typed."""

LONGEST = 50
"""A longer line, in words, is no note (a remark may be longer)."""

PASSING_COST = 1.5
"""Where a typed line means anything else, what people only say in passing isn't meant."""

SHOWN = 80
"""Of a line that means nothing, so many characters are said back."""

OCLOCK = "o'clock"
"""Hardly anything but an hour of the clock has it."""

PLACES = frozenset({"gap", "gap_at", "hour", "remark"})
"""Pieces that say where something lies."""
PIECES = (*PLACES, "side", "number")
"""Pieces that are kept of a note that wasn't understood."""
DENYING = frozenset({"no", "not", "never", "isn't", "wasn't", "didn't", "hasn't", "without", "nor", "none"})
"""Left over, these may turn all the rest about."""

Found = tuple[float, Meaning]


class Cover(NamedTuple):
    """Pieces found from a word on, and how many words are none."""

    left: int
    spans: tuple[tuple[str, int, int], ...]


class LineReader:
    """Reads lines with one phrase book."""

    def __init__(self, book: PhraseBook, writer: Writer) -> None:
        self._index = Index(book)
        self._matchers = Matchers(self._index)
        self._writer = writer
        self._game_words = book.game_words
        self._half_game_words = book.half_game_words
        self._elsewhere = book.elsewhere
        self._known = frozenset(self._index.sound(word) for word in book.readable)
        self._openings = [tuple(filler.split()) for filler in book.fillers["opening"]]
        self._closings = [tuple(filler.split()) for filler in book.fillers["closing"]]

    def meanings(self, text: str, expected: Expected, how: How = "strictly") -> tuple[Found, ...]:
        """The line's meanings with their costs, the cheapest first; none for chatter.

        Who types means it as a note: words that the book doesn't have are passed over then, and words that
        people say in passing count.
        """
        words = self._writer.words(text)
        called = self._after_call_word(words, expected)
        if called is None:
            if expected.open is None:
                return ()
            found = self._find(words, expected, how, only_answers=True)
        else:
            found = self._find(called, expected, how)
        best: dict[Meaning, float] = {}
        for cost, meaning in found:
            if meaning.passing and how != "typed":
                continue
            whole = cost + (PASSING_COST if meaning.passing else 0.0)
            best[meaning] = min(whole, best.get(meaning, whole))
        return tuple(sorted(((cost, meaning) for meaning, cost in best.items()), key=lambda pair: pair[0]))

    def words_not_understood(self, text: str) -> str:
        """Of a line that means nothing, the words that the book doesn't have, or all; none for talk."""
        words = self._writer.words(text)
        odd = [word for word in words if self._index.is_odd(self._index.sound(word))]
        halves = 1 < len(self._half_game_words.intersection(words)) > len(odd)
        if self._game_words.isdisjoint(word.removesuffix("'s") for word in words) and not halves:
            return ""
        return ", ".join(odd) if odd else " ".join(words)[:SHOWN]

    def understood(self, text: str, expected: Expected) -> str | None:
        """Of a line that is no note, the words of the pieces that are: for what is put right in the next.

        None where it holds no piece of where a bowl lies. Nothing where a number or a "not" is left over:
        what was meant is then anybody's guess.
        """
        words = self._writer.words(text)
        if len(words) > LONGEST:
            return None
        chart = Chart(self._index, self._matchers, self._makers(expected), words, "tolerantly")
        covers = [Cover(0, ())]
        for at in range(len(words) - 1, -1, -1):
            found = [(part, match.end) for part in PIECES for match in chart.part(part, at)]
            ways = [Cover(covers[0].left + 1, covers[0].spans)]
            ways += [
                Cover(covers[end - at - 1].left, ((part, at, end), *covers[end - at - 1].spans))
                for part, end in found
                if end > at
            ]
            covers.insert(0, min(ways, key=lambda way: (way.left, len(way.spans))))
        spans = covers[0].spans
        if not any(part in PLACES for part, _, _ in spans):
            return None
        inside = {at for _, start, end in spans for at in range(start, end)}
        over = [at for at in range(len(words)) if at not in inside]
        if any(words[at] in DENYING or chart.named("whole", at) for at in over):
            return ""
        return " ".join(words[at] for at in sorted(inside))

    def without_fix(self, text: str, expected: Expected) -> str:
        """The line without the "I mean" or "no" that it begins with."""
        words = self._writer.words(text)
        chart = Chart(self._index, self._matchers, self._makers(expected), words, "typed")
        return " ".join(words[max((match.end for match in chart.part("fix", 0)), default=0) :])

    def sounds_like_note(self, text: str, expected: Expected) -> bool:
        """True for most of a note: a distance with a number or an hour, or a name with an hour.

        Talk has numbers and hours too: where any two of the three would do, the program asked for 20 an hour.
        "O'clock" alone is an hour whose figure was lost. One strange word is let pass beside a distance with
        a name or an "o'clock". What tells of another day is talk.
        """
        words = self._after_call_word(self._writer.words(text), expected) or []
        strange = sum(self._index.sound(word) not in self._known for word in words)
        if len(words) > LONGEST or strange > 1 or not self._elsewhere.isdisjoint(words):
            return False
        chart = Chart(self._index, self._matchers, self._makers(expected), words)
        number, gap, hour = (
            any(chart.part(part, at) for at in range(len(words))) for part in ("number", "gap", "hour")
        )
        named = any(
            chart.part("number", side.end) for at in range(len(words)) for side in chart.part("side", at)
        )
        if strange:
            return gap and (named or OCLOCK in words)
        hour = hour or OCLOCK in words
        return (gap and (number or hour)) or (named and hour)

    def is_known(self, text: str) -> bool:
        """True where the book has every word, and none tells of another day or place."""
        words = self._writer.words(text)
        return self._elsewhere.isdisjoint(words) and all(
            self._index.sound(word) in self._known for word in words
        )

    def _after_call_word(self, words: list[str], expected: Expected) -> list[str] | None:
        """The words after the call word; None when one is set and wasn't said."""
        if expected.call_word is None:
            return words
        called = self._writer.words(expected.call_word)
        return words[len(called) :] if words[: len(called)] == called else None

    def _find(
        self, words: list[str], expected: Expected, how: How, only_answers: bool = False
    ) -> Iterator[Found]:
        """Every meaning of the line, with more or fewer of the small words around it cut off."""
        chart = Chart(self._index, self._matchers, self._makers(expected), words, how)
        strange = len(words) > LONGEST or self._is_strange(chart, expected)
        starts, tails = self._starts(chart), self._tails(chart)
        for tail in tails:
            end = len(words) - tail
            begins = [start for start in starts if start < end]
            if begins and not only_answers and not strange:
                for cost, start, meaning in free(self._index, chart, begins, end, expected):
                    yield cost + FILLER_COST * (tail + start), meaning
            for start in begins:
                found = self._sentences(chart, start, end, expected, only_answers)
                for cost, meaning in free_words(chart, start, end) if strange else found:
                    yield cost + FILLER_COST * (tail + start), meaning

    def _is_strange(self, chart: Chart, expected: Expected) -> bool:
        """True when a word isn't in the book (an answer that is offered may have other words)."""
        strange = sum(sound not in self._known for sound in chart.sounds[:-1])
        return expected.open is None and (
            strange > (MOST_ODD if chart.typed else 0) or not self._elsewhere.isdisjoint(chart.words)
        )

    def _starts(self, chart: Chart) -> list[int]:
        """Where the note may begin: after each of the small words before it."""
        words = chart.words
        starts = {0, *(len(said) for said in self._openings if tuple(words[: len(said)]) == said)}
        if chart.typed:
            for _ in range(EDGES):
                starts |= {match.end for start in starts for match in chart.loose(start)}
                starts |= {
                    start + len(said)
                    for start in starts
                    for said in self._openings
                    if tuple(words[start : start + len(said)]) == said
                }
        return sorted(starts)

    def _tails(self, chart: Chart) -> list[int]:
        """How many small words may be cut off at the end."""
        words = chart.words
        tails = {0, *(len(said) for said in self._closings if tuple(words[-len(said) :]) == said)}
        ends = {len(words)}
        for at in range(len(words) - 1, max(0, len(words) - EDGES), -1) if chart.typed else ():
            if any(match.end in ends for match in chart.loose(at)):
                ends.add(at)
        return sorted({*tails, *(len(words) - end for end in ends)})

    def _sentences(
        self, chart: Chart, start: int, end: int, expected: Expected, only_answers: bool
    ) -> Iterator[Found]:
        yield from answers(self._index, chart, start, end, expected)
        if not only_answers:
            yield from commands(self._index, chart, start, end, expected)
            yield from free_words(chart, start, end)

    def _makers(self, expected: Expected) -> dict[str, Maker]:
        return {
            **dict.fromkeys(("whole", "small", "tens_and_ones", "round_tens", "small_or_tens"), pieces.whole),
            "amount": pieces.amount,
            "gap": pieces.gap_maker(expected.bowl_m),
            "tape_gap": pieces.gap_maker(expected.bowl_m),
            "hour": pieces.hour,
            "hour_alone": pieces.hour,
        }
