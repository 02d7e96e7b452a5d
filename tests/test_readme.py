"""The guides' lists and the picture of a head are those of the program, and the README stays short."""

import re
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from tests.readme import HEAD, PARTS, README, drawn, written
from voicecoach import phrasebook

MEASURED = README.parent / "tests" / "bench" / "MEASURED.md"
AGAIN = "run: python -m tests.readme"
FIRST = README.read_text(encoding="utf-8").split("## The twenty sentences")[1].split("\n## ")[0]


@pytest.mark.parametrize("guide", PARTS, ids=lambda path: path.name)
def test_a_guides_lists_are_written_from_the_data(guide: Path) -> None:
    assert written(guide) == guide.read_text(encoding="utf-8"), AGAIN


def test_the_picture_of_a_head_is_what_the_page_draws_today() -> None:
    kept = HEAD.read_text(encoding="utf-8")
    assert kept == drawn(), AGAIN
    bowls = [one for one in ET.fromstring(kept).iter() if "data-body" in one.attrib]
    assert len(bowls) == 9  # eight bowls and the jack
    assert HEAD.name in README.read_text(encoding="utf-8")


def test_the_sentences_that_one_needs_first_are_twenty_of_those_that_the_tests_try() -> None:
    said = re.findall(r'^\| "([^"]+)" \|', FIRST, re.MULTILINE)
    assert len(said) == 20
    assert set(said) <= {example.sentence for example in phrasebook.load().examples()}


def test_the_developers_page_can_be_read_in_a_sitting() -> None:
    assert len((README.parent / "DEVELOPERS.md").read_text(encoding="utf-8").splitlines()) < 250


def test_the_laboratory_notes_are_questions_and_each_answer_begins_with_one_line() -> None:
    notes = MEASURED.read_text(encoding="utf-8")
    found = re.findall(r"^## (.*)\n\n(.*)\n\n", notes, re.MULTILINE)
    assert len(found) == notes.count("\n## ") > 20
    for question, answer in found:
        assert question.endswith("?")
        assert re.fullmatch(r"\*\*.+\.\*\*", answer), f"{question} isn't answered in one line"


def test_the_readme_can_be_read_in_a_sitting_and_links_to_guides_that_exist() -> None:
    text = README.read_text(encoding="utf-8")
    assert len(text.splitlines()) < 220
    links = re.findall(r"\]\(([^)#:]+)\)", text)
    assert len(links) >= 7
    assert all((README.parent / link).is_file() for link in links)
