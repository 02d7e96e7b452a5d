"""hassil's templates, read into the book's trees. Only this module imports hassil."""

from __future__ import annotations

from collections.abc import Iterable

from hassil.expression import (
    Alternative,
    Expression,
    Group,
    ListReference,
    Permutation,
    RuleReference,
    TextChunk,
)
from hassil.parse_expression import parse_sentence

from voicecoach.phrasebook.grammar import Choice, Literal, Node, Reference, Sequence


def tree_of(template: str) -> Node:
    """One hassil template as a tree."""
    return _node(parse_sentence(template).expression)


def _node(expression: Expression) -> Node:
    if isinstance(expression, TextChunk):
        return _sequence(Literal(word) for word in expression.text.split())
    if isinstance(expression, RuleReference):
        return Reference(expression.rule_name)
    if isinstance(expression, ListReference):
        return Reference(expression.list_name, expression.slot_name)
    if isinstance(expression, Permutation) or not isinstance(expression, Group):
        raise ValueError(f"not used in the phrase book: {expression}")
    items = tuple(_node(item) for item in expression.items)
    return Choice(items) if isinstance(expression, Alternative) else _sequence(items)


def _sequence(items: Iterable[Node]) -> Node:
    kept = tuple(item for item in items if item != Sequence(()))
    return kept[0] if len(kept) == 1 else Sequence(kept)
