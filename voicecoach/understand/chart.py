"""Finds every piece of the phrase book in one line of words, once each."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any, NamedTuple

from voicecoach.phrasebook.grammar import Choice, Constants, Literal, Node, Reference
from voicecoach.phrasebook.grammar import Sequence as Parts
from voicecoach.understand.index import Index

Captures = tuple[tuple[str, Any], ...]
Maker = Callable[[Mapping[str, Any]], Any]

SOUND_COST = 1.2
"""A word that only sounds like the book's costs more than one piece more does."""


class Match(NamedTuple):
    """A stretch of words that a template explains."""

    end: int
    cost: float
    captures: Captures


class Chart:
    """All matches of the book's rules in one line; each rule is tried once at each word."""

    def __init__(self, index: Index, makers: Mapping[str, Maker], words: Sequence[str]) -> None:
        self.words = words
        self._index = index
        self._makers = makers
        self.sounds = [*(index.sound(word) for word in words), ""]
        """The words' sounds, and a last one that no template begins with."""
        self._found: dict[tuple[str, int], list[Match]] = {}

    def part(self, name: str, at: int) -> list[Match]:
        """Every stretch from word `at` on that a part of the book explains."""
        key = (f"part {name}", at)
        if key not in self._found:
            self._found[key] = self._match(self._index.book.parts[name], at)
        return self._found[key]

    def rule(self, name: str, at: int) -> list[Match]:
        """Every stretch from word `at` on that a rule of the book explains."""
        return self._named(name, at)

    def whole(self, node: Node, start: int, end: int) -> list[Match]:
        """The ways in which a node explains just the words from `start` to `end`."""
        return [found for found in self._match(node, start) if found.end == end]

    def said(self, phrase: str, start: int, end: int) -> list[float]:
        """The cost of the words from `start` to `end` being this phrase; empty when they aren't."""
        words = [self._index.book.spelling.canonical(word) for word in phrase.split()]
        cost = self._phrase(words, start)
        return [] if cost is None or start + len(words) != end else [cost]

    def _match(self, node: Node, at: int) -> list[Match]:
        if isinstance(node, Choice):
            options = self._index.options(node, self.sounds[at])
            return [found for item in options for found in self._match(item, at)]
        if isinstance(node, Parts):
            return self._sequence(node, at)
        if isinstance(node, Literal):
            cost = self._phrase((node.word,), at)
            return [] if cost is None else [Match(at + 1, cost, ())]
        return [_constant(at, node)] if isinstance(node, Constants) else self._reference(node, at)

    def _sequence(self, node: Parts, at: int) -> list[Match]:
        found = [Match(at, 0.0, ())]
        for item in node.items:
            found = [
                Match(after.end, before.cost + after.cost, before.captures + after.captures)
                for before in found
                for after in self._match(item, before.end)
            ]
            if not found:
                break
        return found

    def _phrase(self, words: Sequence[str], at: int) -> float | None:
        """What it costs to take the words at `at` for these; None when they don't sound like them."""
        cost = 0.0
        for offset, word in enumerate(words, at):
            if self.sounds[offset : offset + 1] != [self._index.sound(word)]:
                return None
            cost += 0.0 if self.words[offset] == word else SOUND_COST
        return cost

    def _reference(self, node: Reference, at: int) -> list[Match]:
        found = self._named(node.name, at)
        if node.slot is None or not found:
            return found
        maker = self._makers.get(node.name, _value)
        valued = ((each, maker(fold(each.captures))) for each in found)
        return [
            Match(each.end, each.cost, ((node.slot, value),)) for each, value in valued if value is not None
        ]

    def _named(self, name: str, at: int) -> list[Match]:
        key = (name, at)
        if key not in self._found:
            rule = self._index.book.rules.get(name)
            self._found[key] = self._match(rule, at) if rule else self._listed(name, at)
        return self._found[key]

    def _listed(self, name: str, at: int) -> list[Match]:
        found = []
        for phrase, value in self._index.entries(name, self.sounds[at]):
            cost = self._phrase(phrase, at)
            if cost is not None:
                found.append(Match(at + len(phrase), cost, (("value", value),)))
        return found


def _constant(at: int, node: Constants) -> Match:
    """What a template sets; `cost` makes it a less likely way to say it."""
    cost = sum(float(value) for name, value in node.values if name == "cost" and value is not None)
    return Match(at, cost, tuple(pair for pair in node.values if pair[0] != "cost"))


def fold(captures: Captures) -> dict[str, Any]:
    """The captures by name; figures under one name add up ("twenty" "six")."""
    folded: dict[str, Any] = {}
    for name, value in captures:
        adds = isinstance(value, int | float) and not isinstance(value, bool) and name in folded
        folded[name] = folded[name] + value if adds else value
    return folded


def _value(captures: Mapping[str, Any]) -> Any:
    return captures.get("value", captures)
