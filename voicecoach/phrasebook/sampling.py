"""Draws sentences from the book's templates, as the recogniser spells them."""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator, Mapping, Sequence
from math import prod
from typing import TypeVar

from voicecoach.phrasebook.grammar import Choice, Constant, Constants, Literal, Node, Reference
from voicecoach.phrasebook.grammar import Sequence as Parts
from voicecoach.phrasebook.spelling import Spelling

T = TypeVar("T")
Lists = Mapping[str, Mapping[str, Constant]]
Decks = dict[int, list[int]]
"""For each choice, what of it hasn't been drawn in this round, shuffled like a deck of cards."""

SMALL = 60
"""A template with no more sentences than this is written out in full."""


class Sampler:
    """Walks the templates; of each choice, everything is drawn once before anything is drawn again."""

    def __init__(self, lists: Lists, rules: Mapping[str, Choice], spelling: Spelling) -> None:
        self._lists = lists
        self._rules = rules
        self._spelling = spelling
        self._sizes: dict[str, int] = {}

    def sentences(self, node: Node, count: int, rng: random.Random) -> list[str]:
        """That many different sentences of one template; all of a small one."""
        if self._size(node) <= SMALL:
            return self.all_of(node)
        found: dict[str, None] = {}
        decks: Decks = {}
        for _ in range(4 * count):
            if len(found) >= count:
                break
            found.setdefault(" ".join(self._spelling.speak(self.draw(node, decks, rng), rng)))
        return list(found)

    def draw(self, node: Node, decks: Decks, rng: random.Random) -> list[str]:
        """One sentence of a template, in the book's spelling."""
        if isinstance(node, Literal):
            return [node.word]
        if isinstance(node, Parts):
            return [word for item in node.items for word in self.draw(item, decks, rng)]
        if isinstance(node, Choice):
            return self.draw(_next(node.drawn, decks, id(node), rng), decks, rng)
        if isinstance(node, Reference):
            if node.name in self._rules:
                return self.draw(self._rules[node.name], decks, rng)
            entries = self._lists[node.name]
            return _next(list(entries), decks, id(entries), rng).split()
        return []

    def all_of(self, node: Node) -> list[str]:
        """Every sentence of a small template, in every spelling the recogniser may use."""
        plain = {" ".join(words) for words in self._every(node)}
        return sorted({form for phrase in plain if phrase for form in self._spelling.spoken(phrase)})

    def _size(self, node: Node) -> int:
        """How many sentences a template has (counting twice what can be said in two ways)."""
        if isinstance(node, Reference) and node.name in self._rules:
            if node.name not in self._sizes:
                self._sizes[node.name] = self._size(self._rules[node.name])
            return self._sizes[node.name]
        if isinstance(node, Parts):
            return prod(self._size(item) for item in node.items)
        if isinstance(node, Choice):
            return sum(self._size(item) for item in node.drawn)
        return len(self._lists[node.name]) if isinstance(node, Reference) else 1

    def _every(self, node: Node) -> Iterator[tuple[str, ...]]:
        if isinstance(node, Literal):
            yield (node.word,)
        elif isinstance(node, Parts):
            for combination in itertools.product(*(list(self._every(item)) for item in node.items)):
                yield tuple(itertools.chain.from_iterable(combination))
        elif isinstance(node, Choice):
            for item in node.drawn:
                yield from self._every(item)
        elif isinstance(node, Constants):
            yield ()
        elif node.name in self._rules:
            yield from self._every(self._rules[node.name])
        else:
            yield from (tuple(phrase.split()) for phrase in self._lists[node.name])


def _next(items: Sequence[T], decks: Decks, owner: int, rng: random.Random) -> T:
    deck = decks.setdefault(owner, [])
    if not deck:
        deck += rng.sample(range(len(items)), len(items))
    return items[deck.pop()]
