"""The head speaks no language: what it gives are names and figures, and only `describe` has the words."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from typing import get_args

import pytest

import voicecoach.head
from voicecoach.describe.reasons import breach_words, fact_words, opened, refusal_words
from voicecoach.head.values import (
    Answer,
    AnswerWord,
    AskBack,
    Asked,
    Breach,
    BreachName,
    ByPlaces,
    EndsLeft,
    Fact,
    FactName,
    Figures,
    Refusal,
    Refused,
)
from voicecoach.phrasebook.wording import wording
from voicecoach.understand import values as understood
from voicecoach.understand.values import BowlName, BowlRested

HEAD = Path(voicecoach.head.__file__).parent
UNDERSTAND = Path(understood.__file__).parent
NAME = re.compile(r"[a-z0-9_.]+(,? [a-z0-9]+){0,6}")
"""A name of a closed set: small letters, no sentence."""
PLAIN = re.compile(r"[A-Z][A-Za-z',:;.? ]+")
FIGURES = Figures(
    bowl=BowlName(side="theirs", number=2),
    law="15.1",
    count=3,
    shots=2,
    side="ours",
    format="pairs",
    breaches=(Breach(name="green length", law="46.2", figure=42.05, bounds=(31.0, 40.0)),),
    missing="both",
)


def trees(folder: Path) -> Iterator[tuple[Path, ast.Module]]:
    for path in sorted(folder.rglob("*.py")):
        yield path, ast.parse(path.read_text(encoding="utf-8"))


def is_literal(node: ast.AST) -> bool:
    return isinstance(node, ast.Subscript) and isinstance(node.value, ast.Name) and node.value.id == "Literal"


def names(tree: ast.Module) -> set[str]:
    """Every string that stands in a `Literal[...]`."""
    closed = [node for node in ast.walk(tree) if is_literal(node)]
    return {
        inner.value
        for node in closed
        for inner in ast.walk(node)
        if isinstance(inner, ast.Constant) and isinstance(inner.value, str)
    }


def documentation(tree: ast.Module) -> set[int]:
    """The strings that stand as statements: docstrings and the notes under fields."""
    return {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}


def strings(tree: ast.Module) -> Iterator[ast.Constant]:
    skipped = documentation(tree)
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in skipped:
            yield node


def english(tree: ast.Module, known: set[str]) -> list[str]:
    """Strings of more than one word that no closed set names, and any that look like a sentence."""
    found = []
    for node in strings(tree):
        text = node.value
        assert isinstance(text, str)
        several = len(re.findall(r"[A-Za-z_']+", text)) > 1 and text not in known
        if several or re.search(r"[a-z][.?!]( |$)|^[A-Z][a-z]+ ", text):
            found.append(f"line {node.lineno}: {text}")
    return found


def closed_sets() -> set[str]:
    """Every name of the closed sets that the head may use: its own, and those of what was said."""
    return {name for folder in (HEAD, UNDERSTAND) for _, tree in trees(folder) for name in names(tree)}


def test_no_module_of_the_head_has_a_sentence() -> None:
    known = closed_sets()
    found = {path.name: english(tree, known) for path, tree in trees(HEAD)}
    assert {name: lines for name, lines in found.items() if lines} == {}


def test_the_search_finds_a_sentence_where_there_is_one() -> None:
    for text in ('refuse("There is no last note.")', 'f"{name} has not been called"', '"no such thing"'):
        assert english(ast.parse(f'"""A docstring of words."""\nx = {text}'), {"in the ditch"})
    assert not english(ast.parse('x = "in the ditch" if y else "as_called"'), {"in the ditch"})


def test_the_names_of_reasons_are_names_and_no_sentences() -> None:
    for closed in (Refusal, Asked, BreachName, FactName, AnswerWord):
        assert all(NAME.fullmatch(name) for name in get_args(closed))


@pytest.mark.parametrize("why", get_args(Refusal))
def test_every_refusal_is_a_plain_sentence(why: Refusal) -> None:
    for figures in (FIGURES, Figures()):
        said = refusal_words(Refused(why=why, figures=figures))
        assert PLAIN.fullmatch(said), said
        assert said.endswith(".")


@pytest.mark.parametrize("asks", get_args(Asked))
def test_every_question_is_a_plain_question(asks: Asked) -> None:
    offered: tuple[Answer, ...] = ("ours", BowlName(side="theirs", number=2), 3)
    note = BowlRested()
    asked = opened(
        AskBack(slot="hour", asks=asks, figures=FIGURES, pending=note, choices=(note,) * 3, answers=offered)
    )
    assert PLAIN.fullmatch(asked.ask), asked.ask
    assert asked.ask.endswith("?")
    assert asked.answers == ("ours", "their second", "three o'clock")


@pytest.mark.parametrize("name", get_args(BreachName))
def test_every_breach_of_a_law_has_words_with_the_law_in_them(name: BreachName) -> None:
    said = breach_words(Breach(name=name, law="17.1.1", figure=23.0, bounds=(1.0, 2.0)))
    assert said.endswith(", law seventeen point one point one")


@pytest.mark.parametrize("fact", [*get_args(FactName), EndsLeft(ends_left=1), ByPlaces(by_places=0)], ids=str)
def test_every_fact_has_words(fact: Fact) -> None:
    said = fact_words(fact)
    assert re.fullmatch(r"[A-Za-z',:. ]+", said)


def test_the_wording_has_no_reason_that_the_head_does_not_know() -> None:
    sets = {"refused": Refusal, "asked": Asked, "answers": AnswerWord}
    for section, closed in sets.items():
        worded = {key.partition(".")[2] for key in wording() if key.startswith(f"{section}.")}
        assert worded == set(get_args(closed))
