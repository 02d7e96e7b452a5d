"""A template's tree as plain data, and back: for what is kept of a book that was read before."""

from __future__ import annotations

from functools import cache
from typing import Any

from voicecoach.phrasebook.grammar import Choice, Constants, Literal, Node, Reference, Sequence

_literal = cache(Literal)
"""The book's ten thousand words are a thousand different ones."""


def written(node: Node) -> Any:
    """The tree as strings and lists, which JSON can hold."""
    match node:
        case Literal(word):
            return word
        case Sequence(items):
            return ["all", *map(written, items)]
        case Choice(items, only_read):
            return ["one", sorted(only_read), *map(written, items)]
        case Reference(name, slot):
            return ["named", name, slot]
        case Constants(values):
            return ["sets", [list(pair) for pair in values]]


def tree(data: Any) -> Node:
    """The tree that was written.

    Raises:
        ValueError: It was written in no such way.
    """
    match data:
        case str(word):
            return _literal(word)
        case ["all", *items]:
            return Sequence(tuple([tree(item) for item in items]))
        case ["one", list(only_read), *items]:
            return Choice(tuple([tree(item) for item in items]), frozenset(only_read))
        case ["named", str(name), None | str() as slot]:
            return Reference(name, slot)
        case ["sets", list(pairs)]:
            return Constants(tuple([(name, value) for name, value in pairs]))
    raise ValueError(f"no tree: {data!r}")
