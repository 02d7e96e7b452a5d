"""Corrections: of the last note, by name, in one breath, and at once after a note."""

import pytest

from tests.understand.reads import bowl, fields, is_chatter, note, unclear
from voicecoach.understand.values import Corrected, Expected, Question, TakenBack

LYING = Expected(lying=(bowl("ours", 1), bowl("theirs", 1), bowl("ours", 2)))


@pytest.mark.parametrize(
    "opener", ["no", "sorry", "no sorry", "correction", "make that", "i mean", "no wait", "nope", "actually"]
)
def test_a_correction_changes_only_what_is_said(opener: str) -> None:
    assert note(f"{opener} two o'clock") == Corrected(hour=2.0)
    assert note(f"{opener} a metre") == Corrected(gap_m=1.0, unit="m")
    assert note(f"{opener} theirs") == Corrected(side="theirs")
    assert note(f"{opener} a metre at nine") == Corrected(gap_m=1.0, unit="m", hour=9.0)
    assert note(f"{opener} their third") == Corrected(side="theirs", number=3)
    assert note(f"{opener} left") == Corrected(remarks=("left",))


@pytest.mark.parametrize(
    ("line", "target", "changed"),
    [
        ("change our second to three o'clock", bowl("ours", 2), {"hour": 3.0}),
        ("change our second to half past three", bowl("ours", 2), {"hour": 3.5, "hour_width": 0.5}),
        ("change our second to a metre", bowl("ours", 2), {"gap_m": 1.0, "unit": "m"}),
        (
            "change our second to two feet at five",
            bowl("ours", 2),
            {"gap_m": 0.6096, "unit": "ft", "hour": 5.0},
        ),
        ("correct their first to theirs third", bowl("theirs", 1), {"side": "theirs", "number": 3}),
        ("make our second three o'clock", bowl("ours", 2), {"hour": 3.0}),
        ("our second was theirs", bowl("ours", 2), {"side": "theirs"}),
        ("our second was actually theirs", bowl("ours", 2), {"side": "theirs"}),
        ("their first is actually the second", bowl("theirs", 1), {"number": 2}),
        ("their first should be ours", bowl("theirs", 1), {"side": "ours"}),
        ("our first should have been half a metre", bowl("ours", 1), {"gap_m": 0.5, "unit": "m"}),
        ("the second of theirs should be at four o'clock", bowl("theirs", 2), {"hour": 4.0}),
        ("no our second was theirs", bowl("ours", 2), {"side": "theirs"}),
    ],
)
def test_an_earlier_bowl_is_corrected_by_name(line: str, target: object, changed: dict[str, object]) -> None:
    assert note(line) == Corrected.model_validate({"target": target, **changed})


def test_the_last_bowl_of_a_side_is_found_among_those_that_lie() -> None:
    assert note("our last should be a metre", LYING) == Corrected(target=bowl("ours", 2), gap_m=1.0, unit="m")


@pytest.mark.parametrize(
    "line", ["that was theirs", "it was theirs", "the last one was theirs", "that's actually theirs"]
)
def test_whose_the_last_bowl_was_is_a_correction_of_the_last_note(line: str) -> None:
    assert note(line) == Corrected(side="theirs")


@pytest.mark.parametrize(
    "line", ["that was a metre", "that was at four o'clock", "it was two feet", "that was close"]
)
def test_what_was_somewhere_is_talk(line: str) -> None:
    assert is_chatter(line)


@pytest.mark.parametrize(
    ("line", "plain"),
    [
        ("our second eighty no ninety centimetres two o'clock", "our second ninety centimetres two o'clock"),
        (
            "our second eighty centimetres no ninety centimetres two o'clock",
            "our second ninety centimetres two o'clock",
        ),
        ("our second ninety centimetres three no two o'clock", "our second ninety centimetres two o'clock"),
        (
            "our second ninety centimetres three o'clock sorry two o'clock",
            "our second ninety centimetres two o'clock",
        ),
        ("our second no their second a metre at six", "their second a metre at six"),
        ("our first no second a metre at six", "our second a metre at six"),
        ("ours a metre left no right", "ours a metre right"),
        ("ours a metre short i mean past", "ours a metre past"),
        ("jack moved a metre no half a metre back", "jack moved half a metre back"),
        ("jack at twenty five no twenty six metres", "jack at twenty six metres"),
    ],
)
def test_in_one_breath_the_last_counts(line: str, plain: str) -> None:
    assert note(line) == note(plain)


def test_whose_it_was_said_at_once_corrects_and_said_later_asks() -> None:
    assert note("theirs", Expected(after_s=0.4)) == Corrected(side="theirs")
    assert note("theirs", Expected(after_s=1.5)) == Corrected(side="theirs")
    assert note("theirs", Expected(after_s=1.6)) == Question(ask="theirs")
    assert note("theirs") == Question(ask="theirs")


def test_the_tail_of_a_note_that_was_cut_in_two_amends_it() -> None:
    at_once = Expected(after_s=0.5)
    assert note("their third", at_once) == Corrected(side="theirs", number=3)
    assert note("two o'clock", at_once) == Corrected(hour=2.0)
    assert note("eighty centimetres", at_once) == Corrected(gap_m=0.8, unit="cm")
    assert note("eighty centimetres two o'clock", at_once).kind == "bowl_rested"
    assert unclear("two o'clock", Expected(after_s=1.6)).why == "incomplete"


@pytest.mark.parametrize(
    "line",
    [
        "take that back",
        "scratch that",
        "undo",
        "cancel the last note",
        "no take that back",
        "please undo that",
    ],
)
def test_the_last_note_is_taken_back(line: str) -> None:
    assert note(line) == TakenBack()


def test_a_correction_that_contradicts_itself_is_asked_about() -> None:
    assert unclear("no nine o'clock right").why == "contradiction"


def test_the_jack_can_be_corrected_by_name() -> None:
    assert fields("change the jack to half a metre") == {
        "kind": "corrected",
        "target": "jack",
        "gap_m": 0.5,
        "unit": "m",
    }
