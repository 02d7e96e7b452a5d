"""Words of the language have one home each: number words and directions stand in no second module."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import voicecoach
from voicecoach import phrasebook
from voicecoach.phrasebook.numbers import cardinal, figure, ordinal
from voicecoach.phrasebook.wording import listed
from voicecoach.understand.saying import Sayer
from voicecoach.understand.values import ACROSS, ALONG, DIRECTIONS, BowlName
from voicecoach.understand.words import Writer

PACKAGE = Path(voicecoach.__file__).parent
NUMBERS = {*listed("numbers.small")[3:], *listed("numbers.tens"), *listed("numbers.ordinals")[3:], "hundred"}
"""The number words that mean nothing else: "one", "first" and "second" do."""


def modules() -> Iterator[tuple[str, ast.Module]]:
    for path in sorted(PACKAGE.rglob("*.py")):
        yield str(path.relative_to(PACKAGE)), ast.parse(path.read_text(encoding="utf-8"))


def collections(tree: ast.Module) -> Iterator[set[str]]:
    """The strings of each tuple, list, set and dictionary that is written out."""
    for node in ast.walk(tree):
        parts = node.keys if isinstance(node, ast.Dict) else getattr(node, "elts", [])
        yield {str(part.value) for part in parts if isinstance(part, ast.Constant)}


def test_no_module_has_a_list_of_number_words() -> None:
    for name, tree in modules():
        for together in collections(tree):
            assert len(together & NUMBERS) < 3, f"{name}: {sorted(together)}"


def test_every_number_that_is_written_in_words_is_read_back_as_itself() -> None:
    lists = phrasebook.load().lists
    small = {word: value for name in ("unit", "teen", "ten", "digit") for word, value in lists[name].items()}
    for number in (*range(20), *range(20, 100, 10)):
        assert small[cardinal(number)] == number
    assert [lists["ordinal"][ordinal(number)] for number in range(1, 10)] == list(range(1, 10))
    assert small[figure("0")] == 0


@pytest.mark.parametrize(
    ("digits", "words"),
    [("0.05", "zero point zero five"), (".5", "zero point five"), ("12", "twelve"), ("1234", "[unk]")],
)
def test_figures_are_read_digit_by_digit_and_a_thousand_has_no_word(digits: str, words: str) -> None:
    assert " ".join(Writer(phrasebook.load()).words(digits)) == words


def test_directions_are_listed_in_one_place() -> None:
    for name, tree in modules():
        if name == "understand/vocabulary.py":
            continue
        for together in collections(tree):
            across, along = together.intersection(ACROSS), together.intersection(ALONG)
            assert len(across) < 3, f"{name}: {sorted(together)}"
            assert not (len(across) > 1 and len(along) > 1), f"{name}: {sorted(together)}"
    assert set(DIRECTIONS) == {*ALONG, *ACROSS}


def test_a_sayer_names_bowls_by_the_same_ordinals() -> None:
    sayer = Sayer(Writer(phrasebook.load()))
    assert sayer.name(BowlName(side="theirs", number=4)) == f"their {ordinal(4)}"
