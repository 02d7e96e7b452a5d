"""The wording file: every template is used, every sentence is plain words."""

import random
import re
import string
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.describe.forms import forms
from tests.describe.heads import picture_of, random_lays
from voicecoach import describe
from voicecoach.describe import Preferences, read_back, written_cautions
from voicecoach.phrasebook.wording import listed, wording, words
from voicecoach.understand.values import Remark

PLAIN = re.compile(r"[A-Za-z',:;.? ]+")
PACKAGE = Path(describe.__file__).parents[1]


def test_every_form_that_can_be_heard_is_plain_words_with_ascii_apostrophes() -> None:
    for name, example in forms():
        assert PLAIN.fullmatch(example), f"{name}: {example}"
        assert example.endswith((".", "?")), f"{name}: {example}"


def test_forms_have_one_name_each() -> None:
    names = [name for name, _ in forms()]
    assert len(names) == len(set(names))


def test_read_backs_of_random_heads_are_plain_words() -> None:
    chance = random.Random(1)
    for _ in range(100):
        picture = picture_of(random_lays(chance, chance.randint(0, 18), as_called=chance.random() < 0.5))
        for terse in (False, True):
            for said in read_back(picture, Preferences(terse=terse)):
                assert PLAIN.fullmatch(said.text), said.text
                assert said.text[0].isupper()


def test_a_template_and_a_word_are_text_and_nothing_else() -> None:
    for key, text in wording().items():
        assert text.isascii(), key
        assert not re.search(r"\d", text), f"{key} has a figure: {text}"
        assert all(
            field is None or field.isidentifier() for _, field, _, _ in string.Formatter().parse(text)
        ), key


def test_a_missing_slot_is_an_error_and_not_a_hole() -> None:
    with pytest.raises(KeyError):
        words("place.distance first", distance="eighty centimetres")


def test_a_list_in_the_file_keeps_its_order() -> None:
    assert listed("numbers.ordinals")[:3] == ("first", "second", "third")


def test_every_caution_that_is_spoken_is_written_in_full_and_the_short_form_comes_first() -> None:
    assert len(listed("cautions.spoken")) == len(written_cautions()) == 8
    assert listed("cautions.short")[0] == listed("cautions.spoken")[0]


# A word of each caution that must survive in its short wording, in the order of the written list.
CORES = ("describes", "alone", "ear", "stand still", "ditch edges", "behind the mat", "estimate", "umpire")


@pytest.mark.parametrize("place", range(len(CORES)))
def test_the_spoken_caution_says_the_same_as_the_written_one(place: int) -> None:
    assert CORES[place] in listed("cautions.spoken")[place].lower()
    assert CORES[place] in written_cautions()[place].lower()


def test_every_remark_of_the_phrase_book_but_the_two_said_otherwise_has_its_words() -> None:
    otherwise = {"touching", "about"}  # the first is a distance, the second is left to the doubt
    missing = [remark for remark in _args(Remark) if f"remark.{remark}" not in wording()]
    assert set(missing) == otherwise


def test_no_template_lies_in_the_file_unused() -> None:
    code = "\n".join(path.read_text(encoding="utf-8") for path in PACKAGE.rglob("*.py"))
    assert [key for key in wording() if not _named(key, code)] == []


def _named(key: str, code: str) -> bool:
    """Whether the code names a key, or builds it from its beginning."""
    parts = re.split(r"[. ]", key)
    starts = [key[: len(" ".join(parts[:count]))] for count in range(1, len(parts))]
    built = (re.search(re.escape(f'"{start}') + r"(?:[. ]\{|\")", code) for start in starts)
    return f'"{key}"' in code or any(built)


def _args(literal: object) -> Iterator[str]:
    yield from getattr(literal, "__args__", ())
