"""Finds every piece of the phrase book in one line of words, once each."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any, NamedTuple

from voicecoach.phrasebook.book import Command, PhraseBook
from voicecoach.phrasebook.grammar import Choice, Constants, Literal, Node, Reference
from voicecoach.phrasebook.grammar import Sequence as Parts

Captures = tuple[tuple[str, Any], ...]
Maker = Callable[[Mapping[str, Any]], Any]

SOUND_COST = 0.5
"""A word that only sounds like the book's costs half of what a needless piece costs."""


class Match(NamedTuple):
    """A stretch of words that a template explains."""

    end: int
    cost: float
    captures: Captures


class Index:
    """Which words each rule can begin with, and which it can't do without: made once for a book."""

    def __init__(self, book: PhraseBook) -> None:
        self.book = book
        self.sound = book.spelling.sound
        self._starts: dict[int, frozenset[str] | None] = {}
        self.lists = {
            name: [(tuple(phrase.split()), value) for phrase, value in entries.items()]
            for name, entries in book.lists.items()
        }
        self._by_first: dict[str, dict[str, list[tuple[tuple[str, ...], Any]]]] = {}
        for name, entries in self.lists.items():
            first = self._by_first.setdefault(name, {})
            for words, value in entries:
                first.setdefault(self.sound(words[0]), []).append((words, value))
        self._commands: dict[str, list[Command]] = {}
        for command in book.commands:
            for sound in self.starts(command.node) or ():
                self._commands.setdefault(sound, []).append(command)

    def entries(self, name: str, word: str) -> list[tuple[tuple[str, ...], Any]]:
        """The entries of a list that begin with a word that sounds like this one."""
        return self._by_first[name].get(self.sound(word), [])

    def commands(self, word: str) -> list[Command]:
        """The book's whole sentences that can begin with a word that sounds like this one."""
        return self._commands.get(self.sound(word), [])

    def starts(self, node: Node) -> frozenset[str] | None:
        """The sounds a node can begin with; None when it may be empty."""
        if id(node) not in self._starts:
            self._starts[id(node)] = self._find_starts(node)
        return self._starts[id(node)]

    def _find_starts(self, node: Node) -> frozenset[str] | None:
        if isinstance(node, Literal):
            return frozenset({self.sound(node.word)})
        if isinstance(node, Reference):
            rule = self.book.rules.get(node.name)
            return self.starts(rule) if rule else frozenset(self._by_first[node.name])
        if isinstance(node, Choice):
            options = [self.starts(item) for item in node.items]
            return None if None in options else frozenset().union(*(o for o in options if o))
        return self._sequence_starts(node)

    def _sequence_starts(self, node: Node) -> frozenset[str] | None:
        found: frozenset[str] = frozenset()
        for item in node.items if isinstance(node, Parts) else ():
            starts = self.starts(item)
            if starts is not None:
                return found | starts
            found |= self._optional_starts(item)
        return None

    def _optional_starts(self, node: Node) -> frozenset[str]:
        """The sounds that a node that may be empty can begin with when it isn't."""
        if isinstance(node, Choice):
            return frozenset().union(*(self.starts(i) or self._optional_starts(i) for i in node.items))
        if isinstance(node, Reference) and node.name in self.book.rules:
            return self._optional_starts(self.book.rules[node.name])
        if isinstance(node, Parts):
            found: frozenset[str] = frozenset()
            for item in node.items:
                starts = self.starts(item)
                found |= starts if starts is not None else self._optional_starts(item)
                if starts is not None:
                    break
            return found
        return frozenset()


class Chart:
    """All matches of the book's rules in one line; each rule is tried once at each word."""

    def __init__(self, index: Index, makers: Mapping[str, Maker], words: Sequence[str]) -> None:
        self.words = words
        self._index = index
        self._makers = makers
        self._sounds = [index.sound(word) for word in words]
        self._found: dict[tuple[str, int], list[Match]] = {}

    def match(self, node: Node, at: int) -> list[Match]:
        """Every stretch from word `at` on that the node explains."""
        starts = self._index.starts(node)
        if starts is not None and (at >= len(self.words) or self._sounds[at] not in starts):
            return []
        if isinstance(node, Literal):
            return [Match(at + 1, self._cost(at, node.word), ())]
        if isinstance(node, Choice):
            return [found for item in node.items for found in self.match(item, at)]
        if isinstance(node, Parts):
            return self._sequence(node, at)
        if isinstance(node, Constants):
            return [_constant(at, node)]
        return self._reference(node, at)

    def part(self, name: str, at: int) -> list[Match]:
        """Every stretch from word `at` on that a part of the book explains."""
        key = (f"part {name}", at)
        if key not in self._found:
            self._found[key] = self.match(self._index.book.parts[name], at)
        return self._found[key]

    def rule(self, name: str, at: int) -> list[Match]:
        """Every stretch from word `at` on that a rule of the book explains."""
        return self._reference(Reference(name), at) if at < len(self.words) else []

    def said(self, phrase: str, start: int, end: int) -> list[float]:
        """The cost of the words from `start` to `end` being this phrase; empty when they aren't."""
        words = [self._index.book.spelling.canonical(word) for word in phrase.split()]
        if [self._index.sound(word) for word in words] != self._sounds[start:end]:
            return []
        return [sum(self._cost(start + offset, word) for offset, word in enumerate(words))]

    def whole(self, node: Node, start: int, end: int) -> list[Match]:
        """The ways in which a node explains just the words from `start` to `end`."""
        return [found for found in self.match(node, start) if found.end == end]

    def _cost(self, at: int, word: str) -> float:
        return 0.0 if self.words[at] == word else SOUND_COST

    def _sequence(self, node: Parts, at: int) -> list[Match]:
        found = [Match(at, 0.0, ())]
        for item in node.items:
            found = [
                Match(after.end, before.cost + after.cost, before.captures + after.captures)
                for before in found
                for after in self.match(item, before.end)
            ]
        return found

    def _reference(self, node: Reference, at: int) -> list[Match]:
        key = (node.name, at)
        if key not in self._found:
            rule = self._index.book.rules.get(node.name)
            self._found[key] = self.match(rule, at) if rule else self._listed(node.name, at)
        if node.slot is None:
            return self._found[key]
        maker = self._makers.get(node.name, _value)
        valued = ((found, maker(fold(found.captures))) for found in self._found[key])
        return [Match(f.end, f.cost, ((node.slot, value),)) for f, value in valued if value is not None]

    def _listed(self, name: str, at: int) -> list[Match]:
        found = []
        for phrase, value in self._index.entries(name, self.words[at]):
            end = at + len(phrase)
            if tuple(self._sounds[at:end]) == tuple(self._index.sound(word) for word in phrase):
                cost = sum(self._cost(at + offset, word) for offset, word in enumerate(phrase))
                found.append(Match(end, cost, (("value", value),)))
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
