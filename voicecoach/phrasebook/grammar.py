"""The phrase book's templates as a small tree that can be matched, walked and counted.

hassil reads the templates; its own matcher is not used because it tries every template in turn
and wants one order of the pieces, while a note's pieces come in any order.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

Constant = str | int | float | bool | None


@dataclass(frozen=True)
class Literal:
    """One word of a template."""

    word: str


@dataclass(frozen=True)
class Sequence:
    """Parts that follow each other; an empty one matches nothing at all."""

    items: tuple[Node, ...]


@dataclass(frozen=True)
class Choice:
    """Parts of which one is said."""

    items: tuple[Node, ...]
    only_read: frozenset[int] = frozenset()
    """Which of them are read where they are said, but never drawn for the ear's phrase list."""

    @property
    def drawn(self) -> tuple[Node, ...]:
        """The parts that sentences are drawn from."""
        return tuple(item for at, item in enumerate(self.items) if at not in self.only_read)


@dataclass(frozen=True)
class Reference:
    """Another rule or list; with a slot, its value is kept under that name."""

    name: str
    slot: str | None = None


@dataclass(frozen=True)
class Constants:
    """Values that a template sets without a word for them."""

    values: tuple[tuple[str, Constant], ...]


Node = Literal | Sequence | Choice | Reference | Constants


TreeOf = Callable[[str], Node]
"""Gives a template's tree."""


def compile_rule(alternatives: object, tree_of: TreeOf) -> Choice:
    """A rule of the book: one template, or a list of templates and of mappings with `say` (or `read`)."""
    entries = alternatives if isinstance(alternatives, list) else [alternatives]
    read = frozenset(at for at, entry in enumerate(entries) if isinstance(entry, Mapping) and "read" in entry)
    return Choice(tuple(_alternative(entry, tree_of) for entry in entries), read)


def _alternative(entry: object, tree_of: TreeOf) -> Node:
    if not isinstance(entry, Mapping):
        return tree_of(str(entry))
    said = entry["read"] if "read" in entry else entry["say"]
    says = said if isinstance(said, list) else [said]
    sets = tuple((str(key), value) for key, value in entry.items() if key not in ("say", "read"))
    return Sequence((Choice(tuple(tree_of(str(say)) for say in says)), Constants(sets)))


def references(node: Node) -> Iterator[str]:
    """Every rule or list that the tree names."""
    return (leaf.name for leaf in _leaves(node) if isinstance(leaf, Reference))


def literals(node: Node) -> Iterator[str]:
    """Every word written in the tree itself."""
    return (leaf.word for leaf in _leaves(node) if isinstance(leaf, Literal))


def _leaves(node: Node) -> Iterator[Node]:
    if isinstance(node, Sequence | Choice):
        for item in node.items:
            yield from _leaves(item)
    else:
        yield node
