"""What sounds alike is told apart, and each no has its own answer: told as a director tells it."""

import pytest

from tests.session.told import Told

OURS = "our first, a metre, two o'clock"


def test_how_far_a_bowl_moved_and_where_it_lies_now_are_told_apart_by_a_word() -> None:
    assert Told(OURS, "our first moved one metre left").said == "Our first moved by one metre left."
    now = Told(OURS, "our first moved to one metre nine o'clock").said
    assert now == "Our first now at one metre, nine o'clock, left."


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (("singles", OURS, "next end"), "No new end is begun."),
        (("singles", OURS, "end over"), "Not scored: say who scored, and how many shots."),
        (("rink ten metres wide",), "Nothing is set: say it again."),
        (("jack at twenty",), "Nothing is set: say it again."),
    ],
)
def test_a_plain_no_is_answered_by_what_was_asked(lines: tuple[str, ...], said: str) -> None:
    told = Told(*lines)
    assert told.outcomes[-1] == "asked"
    assert told.tell("no") == said


@pytest.mark.parametrize(
    ("called", "heard"), [("one inch", "three"), ("two inches", "five"), ("five inches", "thirteen")]
)
def test_a_few_inches_read_in_metres_are_told_apart(called: str, heard: str) -> None:
    told = Told(f"our first, {called}, two o'clock", "speak in metres")
    assert told.tell("where is our first").startswith(f"Our first: {heard} centimetres,")


def test_a_caller_at_the_head_is_confirmed_in_the_mats_frame() -> None:
    told = Told("calling from the head", "their first, a metre left")
    assert told.said == "Their first: one metre right."
    assert told.lie().hour_exact == pytest.approx(3.0)
    assert told.tell("jack moved a foot right") == "Jack one foot left."
    assert told.tell("their first moved a foot left") == "Their first moved by one foot right."


@pytest.mark.parametrize(
    ("ours", "theirs", "by"),
    [
        ("eighty five centimetres", "a metre and a half", "sixty five centimetres"),
        ("half a metre", "two metres", "one and a half metres"),
        ("a foot", "three feet", "two feet"),
    ],
)
def test_the_margin_agrees_with_the_figures_read_beside_it(ours: str, theirs: str, by: str) -> None:
    told = Told(f"our first, {ours}, two o'clock", f"their first, {theirs}, six o'clock", "who holds")
    assert f"We hold one shot, by {by}." in told.said


def test_figures_in_two_units_have_no_margin() -> None:
    told = Told("our first, a foot, two o'clock", "their first, two metres, six o'clock", "who holds")
    assert told.said == "We hold one shot."


def test_whether_a_bowl_is_a_toucher_is_answered_with_yes_or_no() -> None:
    told = Told("their first, a metre, two o'clock", "our first, a toucher, a metre, three o'clock")
    assert told.tell("is their first a toucher") == "No: their first is not a toucher."
    assert told.tell("is our first a toucher") == "Yes: our first is a toucher."
