"""What may have been said where the words as heard mean nothing: the phrase book's list of such slips."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

from voicecoach.phrasebook.book import PhraseBook

SLIPS = 2
"""More slips in one line than this is no line to trust."""
START, END = "start", "end"
THEIRS = {"your": "their", "yours": "theirs"}
"""What "your" is mostly heard for, where nobody is known to say it.

It was heard 14 times as often for "their" as for "our", on 280 spoken notes outdoors at 10 dB."""
YOUR_COST = 0.3
"""For taking "your" as it was heard; "yours" is either's as often."""
KNOWN_COST = 1.0
"""The same, where the ear is known to hear this caller's "their" so; it seldom hears "our" so."""
PutRight = dict[str, float]
"""Lines that may have been said, each with the cost of taking it for what was."""


def has_your(line: str) -> bool:
    """True where a line, heard or typed, calls a side "your" or "yours"."""
    return not THEIRS.keys().isdisjoint(re.findall(r"[a-z']+", line.lower()))


class _Slip(NamedTuple):
    said: tuple[str, ...]
    heard: tuple[str, ...]
    after: frozenset[str]
    before: frozenset[str]
    cost: float
    always: bool
    asked: str | None
    """The slot that must have been asked for; None: whatever was."""


class Misheard:
    """Puts lines right, in every way that the book knows."""

    def __init__(self, book: PhraseBook) -> None:
        self._canonical = book.spelling.canonical
        self._slips = [slip for entry in book.misheard for slip in _slips(entry, book)]

    def also(self, line: str) -> PutRight:
        """What may as well have been said, though the line as heard may mean something."""
        words = tuple(line.split())
        return {" ".join(put_right): cost for put_right, cost in self._put_right(words, always=True)}

    def said(self, line: str, asked: str | None = None) -> Iterator[PutRight]:
        """What may have been said instead: all lines with one slip put right, then all with two.

        Where a slot was asked for, slips of its answers come before all others.
        """
        lines: dict[tuple[str, ...], float] = {tuple(line.split()): 0.0}
        if asked is not None:
            yield {" ".join(words): cost for words, cost in self._put_right(tuple(line.split()), asked=asked)}
        for _ in range(SLIPS):
            found: dict[tuple[str, ...], float] = {}
            for words, cost in lines.items():
                for put_right, more in self._put_right(words):
                    found[put_right] = min(cost + more, found.get(put_right, cost + more))
            lines = found
            yield {" ".join(words): cost for words, cost in lines.items()}

    def every(self, line: str, asked: str | None = None) -> Iterator[str]:
        """The line as it was heard, and every line that may have been said instead, the likelier first."""
        yield line
        yield from self.also(line)
        for lines in self.said(line, asked):
            yield from lines
        if theirs := self.theirs(line):
            yield from self.every(theirs[0], asked)

    @staticmethod
    def theirs(line: str) -> tuple[str, float] | None:
        """The line with "their" for "your", and the cost of the line as it is; None without "your"."""
        words = line.split()
        if not has_your(line):
            return None
        return " ".join(THEIRS.get(word, word) for word in words), YOUR_COST if "your" in words else 0.0

    def _put_right(
        self, words: tuple[str, ...], *, always: bool = False, asked: str | None = None
    ) -> Iterator[tuple[tuple[str, ...], float]]:
        for slip in (slip for slip in self._slips if slip.asked == asked and (slip.always or not always)):
            for at in range(len(words) - len(slip.heard) + 1):
                end = at + len(slip.heard)
                if words[at:end] == slip.heard and self._fits(slip, words, at, end):
                    yield (*words[:at], *slip.said, *words[end:]), slip.cost

    def _fits(self, slip: _Slip, words: Sequence[str], at: int, end: int) -> bool:
        return self._is_one(words[at - 1] if at else START, slip.after) and self._is_one(
            words[end] if end < len(words) else END, slip.before
        )

    def _is_one(self, word: str, of: frozenset[str]) -> bool:
        """True when a word, or the book's own spelling of it, is one of these; any is, of none."""
        return not of or word in of or self._canonical(word) in of


def _slips(entry: dict[str, Any], book: PhraseBook) -> Iterator[_Slip]:
    after, before = (frozenset(_named(entry.get(side, ()), book)) for side in ("after", "before"))
    for heard in entry["heard"]:
        said, cost, always = entry["said"], entry.get("cost", 0.0), entry.get("always", False)
        asked = entry.get("asked")
        yield _Slip(tuple(said.split()), tuple(heard.split()), after, before, cost, always, asked)


def _named(names: Sequence[str], book: PhraseBook) -> Iterator[str]:
    """Words, and the words of the lists that are named."""
    for name in names:
        yield from book.lists.get(name, (name,))
