"""Hours in words, their doubt, and the side words that say them twice."""

from typing import get_args

import pytest

from tests.describe.heads import Lay, lie_of
from voicecoach.describe.hours import (
    HourSaid,
    SideWords,
    hour_said,
    side_words,
    spoken_hour,
    to_half,
    to_whole,
)
from voicecoach.describe.values import Preferences
from voicecoach.head.values import Jack, Lie

PREFS = Preferences()


def lie_at(hour: float, as_called: bool = True) -> Lie:
    return lie_of(Lay("ours", 1, 1.0, hour, as_called=as_called), Jack())


def said(lie: Lie, as_called: bool = True, prefs: Preferences = PREFS) -> HourSaid:
    hour = hour_said(lie, as_called, prefs)
    assert hour is not None
    return hour


@pytest.mark.parametrize(
    ("hour", "words"),
    [
        (12.0, "twelve o'clock"),
        (0.5, "half past twelve"),
        (3.5, "half past three"),
        (11.5, "half past eleven"),
    ],
)
def test_hours_and_half_hours_in_words(hour: float, words: str) -> None:
    assert spoken_hour(hour) == words


@pytest.mark.parametrize(
    ("exact", "whole", "half"),
    [
        (0.4, 12, 0.5),
        (0.5, 1, 0.5),
        (2.5, 3, 2.5),
        (2.49, 2, 2.5),
        (11.5, 12, 11.5),
        (11.8, 12, 12.0),
        (12.0, 12, 12.0),
    ],
)
def test_exactly_half_way_goes_clockwise_and_twelve_is_never_nought(
    exact: float, whole: int, half: float
) -> None:
    assert to_whole(exact) == whole
    assert to_half(exact) == half


def test_a_called_half_hour_is_kept_unless_whole_hours_are_wanted() -> None:
    assert said(lie_at(3.5)).text == "half past three"
    assert said(lie_at(3.5), prefs=Preferences(hours="whole")).text == "four o'clock"


def test_a_recomputed_hour_is_whole_unless_halves_are_wanted() -> None:
    lie = lie_at(3.4, as_called=False)
    assert said(lie, as_called=False).text == "three o'clock"
    assert said(lie, as_called=False, prefs=Preferences(hours="halves")).text == "half past three"


def test_doubt_is_heard_in_the_words() -> None:
    about = lie_at(4.2, as_called=False).model_copy(update={"sure": "about"})
    between = about.model_copy(update={"sure": "between", "between": (4, 5)})
    assert said(about, as_called=False).text == "about four o'clock"
    assert said(between, as_called=False).text == "between four and five o'clock"
    halves = Preferences(hours="halves")
    assert said(about, as_called=False, prefs=halves).text == "about four o'clock", "no finer than the doubt"


@pytest.mark.parametrize(
    ("hour", "full", "helpful"),
    [
        (12.0, "past", ""),
        (0.5, "past", ""),
        (1.0, "past and right", ""),
        (3.0, "right", ""),
        (5.0, "short and right", "right"),
        (5.5, "short", "short"),
        (6.0, "short", ""),
        (8.0, "short and left", ""),
        (9.0, "left", "left"),
        (9.5, "left", "left"),
        (10.0, "past and left", ""),
    ],
)
def test_the_side_is_said_for_five_and_nine_and_in_full_where_wanted(
    hour: float, full: str, helpful: str
) -> None:
    lie = lie_at(hour)
    assert side_words(said(lie), lie, "full", PREFS) == full
    assert side_words(said(lie), lie, "one word where it helps", PREFS) == helpful
    assert side_words(said(lie), lie, "none", PREFS) == ""


def test_a_recomputed_side_is_only_said_where_the_head_vouches_for_it() -> None:
    lie = lie_at(5.1, as_called=False).model_copy(update={"left_right": None})
    assert side_words(said(lie, as_called=False), lie, "full", PREFS) == "short"
    unsure = lie.model_copy(update={"depth": None})
    assert side_words(said(unsure, as_called=False), unsure, "full", PREFS) == ""


@pytest.mark.parametrize(("hour", "word"), [(9.1, "left"), (5.1, "short"), (4.1, "")])
def test_about_nine_and_about_five_are_told_apart_where_the_head_vouches_for_no_side(
    hour: float, word: str
) -> None:
    unsure = lie_at(hour, as_called=False).model_copy(
        update={"left_right": None, "depth": None, "sure": "about"}
    )
    for how in get_args(SideWords):
        wanted = "" if how == "none" else word
        assert side_words(said(unsure, as_called=False), unsure, how, PREFS) == wanted


def test_left_and_right_are_the_listeners_when_facing_the_mat_and_depth_stays() -> None:
    lie = lie_at(5.0)
    assert side_words(said(lie), lie, "full", Preferences(facing="mat")) == "short and left"
