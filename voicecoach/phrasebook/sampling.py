"""Draws sentences from the book's templates, as the recogniser spells them."""

from __future__ import annotations

import itertools
import random
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import TypeVar

from voicecoach.phrasebook.grammar import Choice, Constant, Literal, Node, Reference
from voicecoach.phrasebook.grammar import Sequence as Parts
from voicecoach.phrasebook.spelling import Spelling

T = TypeVar("T")
Lists = Mapping[str, Mapping[str, Constant]]


class Sampler:
    """Walks the templates; of each choice, what was drawn least often comes next."""

    def __init__(self, lists: Lists, rules: Mapping[str, Choice], spelling: Spelling) -> None:
        self._lists = lists
        self._rules = rules
        self._spelling = spelling

    def sentences(self, nodes: Sequence[Node], count: int, rng: random.Random) -> list[str]:
        """That many different sentences, evenly from all templates (fewer if the book has fewer)."""
        used: Counter[tuple[int, int]] = Counter()
        found: dict[str, None] = {}
        for _ in range(20 * count):
            if len(found) >= count:
                break
            node = _least_used(nodes, used, id(nodes), rng)
            words = self._draw(node, used, rng)
            found.setdefault(" ".join(self._spelling.speak(words, rng)))
        return list(found)

    def _draw(self, node: Node, used: Counter[tuple[int, int]], rng: random.Random) -> list[str]:
        if isinstance(node, Literal):
            return [node.word]
        if isinstance(node, Parts):
            return [word for item in node.items for word in self._draw(item, used, rng)]
        if isinstance(node, Choice):
            return self._draw(_least_used(node.items, used, id(node), rng), used, rng)
        if isinstance(node, Reference):
            if node.name in self._rules:
                return self._draw(self._rules[node.name], used, rng)
            phrases = list(self._lists[node.name])
            return _least_used(phrases, used, id(self._lists[node.name]), rng).split()
        return []

    def all_of(self, node: Node) -> list[str]:
        """Every sentence of a small template, in every spelling the recogniser may use."""
        plain = {" ".join(words) for words in self._every(node)}
        return sorted({form for phrase in plain if phrase for form in self._spelling.spoken(phrase)})

    def _every(self, node: Node) -> Iterator[tuple[str, ...]]:
        if isinstance(node, Literal):
            yield (node.word,)
        elif isinstance(node, Parts):
            for combination in itertools.product(*(list(self._every(item)) for item in node.items)):
                yield tuple(itertools.chain.from_iterable(combination))
        elif isinstance(node, Choice):
            for item in node.items:
                yield from self._every(item)
        elif isinstance(node, Reference) and node.name in self._rules:
            yield from self._every(self._rules[node.name])
        elif isinstance(node, Reference):
            for phrase in self._lists[node.name]:
                yield tuple(phrase.split())
        else:
            yield ()


def _least_used(items: Sequence[T], used: Counter[tuple[int, int]], owner: int, rng: random.Random) -> T:
    least = min(used[owner, index] for index in range(len(items)))
    index = rng.choice([index for index in range(len(items)) if used[owner, index] == least])
    used[owner, index] += 1
    return items[index]
