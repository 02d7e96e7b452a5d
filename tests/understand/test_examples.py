"""Every example of the book, against the whole grammar."""

import re
from typing import Any

import pytest
from pydantic import TypeAdapter

from tests.understand.reads import BOOK, UNDERSTANDING, note
from voicecoach.phrasebook.wording import listed
from voicecoach.understand.notes.any_setting import AnySetting
from voicecoach.understand.notes.base import AnyNote
from voicecoach.understand.values import Expected, Note

NOTE: TypeAdapter[Note] = TypeAdapter(Note)
EXAMPLES = BOOK.examples()

FIGURES = frozenset((*listed("numbers.small")[1:], *listed("numbers.tens"), "hundred"))


@pytest.mark.parametrize("example", EXAMPLES, ids=[example.sentence for example in EXAMPLES])
def test_an_example_means_what_the_book_says(example: Any) -> None:
    assert note(example.sentence) == NOTE.validate_python({"kind": example.kind, **example.meaning})


@pytest.mark.parametrize("example", EXAMPLES, ids=[example.sentence for example in EXAMPLES])
def test_an_example_is_a_whole_note_as_soon_as_it_is_said(example: Any) -> None:
    assert UNDERSTANDING.is_whole(example.sentence, Expected())


def test_there_are_examples_of_every_kind_of_note_but_an_answer() -> None:
    kinds = {kind.model_fields["kind"].default for kind in AnyNote.__subclasses__()}
    assert {example.kind for example in EXAMPLES} == kinds - {"declined"}


def test_there_are_examples_of_every_setting_that_can_be_said() -> None:
    names = {kind.model_fields["name"].default for kind in AnySetting.__subclasses__()}
    said = {command.constants["name"] for command in BOOK.commands if command.kind == "setting"}
    assert names - said - {"player"} == {"eye", "mark", "before"}  # these come from files
    assert {e.meaning["name"] for e in EXAMPLES if e.kind == "setting"} <= said


def has_no_distance(sentence: str) -> bool:
    """True for "point oh inches", which is no distance: nothing before the point, and nothing after it."""
    found = re.search(r"(?:(\w+) )?point (?:zero|oh|nought)(?: (\w+))?", sentence)
    return found is not None and FIGURES.isdisjoint(found.groups())


def test_every_template_wins_its_own_sentences_against_the_whole_grammar() -> None:
    for kind, sentence in BOOK.drawn(each=12, seed=7):
        if not has_no_distance(sentence):
            going_on = Expected(
                walking=kind == "walk",
                finished=kind == "end_finished",
                timing=kind == "setting",
                keeping=kind == "setting",
            )
            assert note(sentence, going_on).kind == kind, sentence
