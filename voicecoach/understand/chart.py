"""Finds every piece of the phrase book in one line of words, once each."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any, Literal

from voicecoach.phrasebook.grammar import Node
from voicecoach.understand.index import Index
from voicecoach.understand.matching import SOUND_COST, Captures, Match, Matchers

How = Literal["strictly", "tolerantly", "typed"]
"""How a line is read: as the usual forms alone; with small words left over, and everything that people may
say; and as one that was typed."""

Maker = Callable[[Mapping[str, Any]], Any]
"""Turns what a rule captured into its value; None when that is no value."""


class Chart:
    """All matches of the book's rules in one line; each rule is tried once at each word."""

    def __init__(
        self,
        index: Index,
        matchers: Matchers,
        makers: Mapping[str, Maker],
        words: Sequence[str],
        how: How = "strictly",
    ) -> None:
        self.typed = how == "typed"
        """True for a line that nobody heard: what it holds was meant."""
        self.tolerant = how != "strictly"
        """False where only the book's usual forms count, with nothing left over."""
        self.words = words
        self._index = index
        self._matchers = matchers
        self._makers = makers
        self.sounds: Sequence[str] = [*(index.sound(word) for word in words), ""]
        """The words' sounds, and a last one that no template begins with."""
        self._found: dict[tuple[str, int], list[Match]] = {}
        self._valued: dict[tuple[str, str, int], list[Match]] = {}
        self._parts: dict[tuple[str, int], list[Match]] = {}
        self._loose: dict[int, list[Match]] = {}

    def part(self, name: str, at: int) -> list[Match]:
        """Every stretch from word `at` on that a part of the book explains."""
        key = (name, at)
        if key not in self._parts:
            self._parts[key] = self._matchers.of(self._index.book.parts[name])(self, at)
        return self._parts[key]

    def loose(self, at: int) -> list[Match]:
        """Every stretch from word `at` on that says nothing."""
        if at not in self._loose:
            book = self._index.book
            said: list[Match] = []
            if self.typed:
                said = self._matchers.of(book.loose)(self, at)
            elif at and self.tolerant:  # before a note, the ear writes such words for its first word
                said = self._matchers.of(book.loose_heard)(self, at)
            self._loose[at] = [match for match in said if not match.cost]  # "there" is sooner "their"
        return self._loose[at]

    def whole(self, node: Node, start: int, end: int) -> list[Match]:
        """The ways in which a node explains just the words from `start` to `end`."""
        return [found for found in self._matchers.of(node)(self, start) if found.end == end]

    def said(self, phrase: str, start: int, end: int) -> list[float]:
        """The cost of the words from `start` to `end` being this phrase; empty when they aren't."""
        words = [self._index.book.spelling.canonical(word) for word in phrase.split()]
        cost = self._phrase(words, start)
        return [] if cost is None or start + len(words) != end else [cost]

    def named(self, name: str, at: int) -> list[Match]:
        """Every stretch from word `at` on that a rule or list of the book explains."""
        key = (name, at)
        if key not in self._found:
            rule = self._index.book.rules.get(name)
            self._found[key] = self._matchers.of(rule)(self, at) if rule else self._listed(name, at)
        return self._found[key]

    def valued(self, name: str, slot: str, at: int) -> list[Match]:
        """The same, each with its value in a slot."""
        key = (name, slot, at)
        if key not in self._valued:
            maker = self._makers.get(name, _value)
            made = ((found, maker(fold(found.captures))) for found in self.named(name, at))
            self._valued[key] = [
                Match(found.end, found.cost, ((slot, value),)) for found, value in made if value is not None
            ]
        return self._valued[key]

    def _phrase(self, words: Sequence[str], at: int) -> float | None:
        """What it costs to take the words at `at` for these; None when they don't sound like them."""
        cost = 0.0
        for offset, word in enumerate(words, at):
            if self.sounds[offset : offset + 1] != [self._index.sound(word)]:
                return None
            cost += 0.0 if self.words[offset] == word else SOUND_COST
        return cost

    def _listed(self, name: str, at: int) -> list[Match]:
        found = []
        for phrase, value in self._index.entries(name, self.sounds[at]):
            cost = self._phrase(phrase, at)
            if cost is not None:
                found.append(Match(at + len(phrase), cost, (("value", value),)))
        return found


def fold(captures: Captures) -> dict[str, Any]:
    """The captures by name; figures under one name add up ("twenty" "six")."""
    folded: dict[str, Any] = {}
    for name, value in captures:
        adds = name in folded and isinstance(value, int | float) and not isinstance(value, bool)
        folded[name] = folded[name] + value if adds else value
    return folded


def _value(captures: Mapping[str, Any]) -> Any:
    return captures.get("value", captures)
