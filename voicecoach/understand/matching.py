"""Turns the book's templates into functions that find them in a line: made once for a book.

A function for each node is about twice as quick as asking each node what it is, word by word.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, NamedTuple, Protocol

from voicecoach.phrasebook.grammar import Choice, Constants, Literal, Node
from voicecoach.phrasebook.grammar import Sequence as Parts
from voicecoach.understand.index import Index

Captures = tuple[tuple[str, Any], ...]

SOUND_COST = 1.2
"""A word that only sounds like the book's costs more than one piece more does."""


class Match(NamedTuple):
    """A stretch of words that a template explains."""

    end: int
    cost: float
    captures: Captures


class Line(Protocol):
    """A line of words, and what of it is found already."""

    words: Sequence[str]
    sounds: Sequence[str]
    """The words' sounds, and a last one that no template begins with."""
    tolerant: bool
    """True where templates count that are only read."""

    def named(self, name: str, at: int) -> list[Match]:
        """Every stretch from a word on that a rule or list explains."""

    def valued(self, name: str, slot: str, at: int) -> list[Match]:
        """The same, each with its value in a slot."""


Matcher = Callable[[Line, int], list[Match]]
"""Every stretch from a word on that a node explains."""


class Matchers:
    """The function for each node of a book."""

    def __init__(self, index: Index) -> None:
        self._index = index
        self._made: dict[int, Matcher] = {}

    def of(self, node: Node) -> Matcher:
        """The node's function."""
        if id(node) not in self._made:
            self._made[id(node)] = self._make(node)
        return self._made[id(node)]

    def _make(self, node: Node) -> Matcher:
        if isinstance(node, Literal):
            return self._literal(node.word)
        if isinstance(node, Choice):
            return self._choice(node)
        if isinstance(node, Parts):
            return self._sequence([self.of(item) for item in node.items])
        if isinstance(node, Constants):
            return _constants(node)
        name, slot = node.name, node.slot
        if slot is None:
            return lambda line, at: line.named(name, at)
        return lambda line, at: line.valued(name, slot, at)

    def _literal(self, word: str) -> Matcher:
        sound = self._index.sound(word)

        def match(line: Line, at: int) -> list[Match]:
            if line.sounds[at] != sound:
                return []
            return [Match(at + 1, 0.0 if line.words[at] == word else SOUND_COST, ())]

        return match

    def _choice(self, node: Choice) -> Matcher:
        usual: dict[str, list[Matcher]] = {}
        every: dict[str, list[Matcher]] = {}

        def match(line: Line, at: int) -> list[Match]:
            sound = line.sounds[at]
            by_sound = every if line.tolerant else usual
            if sound not in by_sound:
                items = node.items if line.tolerant else node.drawn
                by_sound[sound] = [self.of(item) for item in items if self._index.may_begin(item, sound)]
            options = by_sound[sound]
            if len(options) == 1:
                return options[0](line, at)
            return [found for option in options for found in option(line, at)]

        return match

    def _sequence(self, items: list[Matcher]) -> Matcher:
        if not items:
            return lambda line, at: [Match(at, 0.0, ())]
        first, *later = items

        def match(line: Line, at: int) -> list[Match]:
            found = first(line, at)
            for item in later:
                if not found:
                    break
                found = [
                    Match(after.end, before.cost + after.cost, before.captures + after.captures)
                    for before in found
                    for after in item(line, before.end)
                ]
            return found

        return match


def _constants(node: Constants) -> Matcher:
    """What a template sets; `cost` makes it a less likely way to say it."""
    cost = sum(float(value) for name, value in node.values if name == "cost" and value is not None)
    captures = tuple(pair for pair in node.values if pair[0] != "cost")
    return lambda line, at: [Match(at, cost, captures)]
