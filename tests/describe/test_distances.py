"""Distances and numbers in words: exactly as called, or rounded at their doubt."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.describe.stranger import metres
from voicecoach.describe.distances import Family, as_called, bare, rounded, worked_out
from voicecoach.describe.lengths import ahead_words, aside_words
from voicecoach.describe.values import Preferences
from voicecoach.phrasebook.numbers import cardinal, ordinal, spoken, without_digits
from voicecoach.understand.values import Unit

# International yard and pound agreement, 1959 (SOURCE: exact by definition): 1 yd = 0.9144 m,
# 1 ft = 0.3048 m, 1 in = 0.0254 m.
YARD, FOOT, INCH = 0.9144, 0.3048, 0.0254


@pytest.mark.parametrize(
    ("gap_m", "unit", "said"),
    [
        (0.8, "cm", "eighty centimetres"),
        (0.01, "cm", "one centimetre"),
        (0.755, "cm", "seventy five and a half centimetres"),
        (1.2, "cm", "one metre twenty"),
        (1.5, "cm", "one metre fifty"),
        (0.5, "m", "half a metre"),
        (1.0, "m", "one metre"),
        (1.05, "m", "one metre five centimetres"),
        (1.2, "m", "one metre twenty"),
        (1.5, "m", "one and a half metres"),
        (2.0, "m", "two metres"),
        (2.5, "m", "two and a half metres"),
        (1.234, "m", "one metre and twenty three point four centimetres"),
        (12 * INCH, "in", "twelve inches"),
        (1 * INCH, "in", "one inch"),
        (2.5 * INCH, "in", "two and a half inches"),
        (1 * FOOT, "ft", "one foot"),
        (3 * FOOT + 6 * INCH, "ft", "three feet six inches"),
        (0.5 * FOOT, "ft", "six inches"),
        (5 * FOOT, "ft", "five feet"),
        (0.5 * YARD, "yd", "half a yard"),
        (1.5 * YARD, "yd", "one and a half yards"),
        (3 * YARD, "yd", "three yards"),
        (1 * YARD + 1 * FOOT, "yd", "one yard one foot"),
        (2 * YARD + 2 * FOOT + 3 * INCH, "yd", "two yards two feet three inches"),
        # The mat is 600 mm long (CM4 law 50, read).
        (0.6, "mat", "a mat length"),
        (1.2, "mat", "two mat lengths"),
        (0.3, "mat", "half a mat length"),
        (0.121, "bowl", "a bowl's width"),
        (0.242, "bowl", "two bowl widths"),
        (0.0, "cm", "touching"),
    ],
)
def test_a_called_distance_is_said_as_it_was_called(gap_m: float, unit: Unit, said: str) -> None:
    assert as_called(gap_m, unit, 0.121) == said


@pytest.mark.parametrize(
    ("distance_m", "sd_m", "kind", "said"),
    [
        (0.683, 0.10, "metric", "seventy centimetres"),
        (0.31, 0.06, "metric", "thirty centimetres"),
        (0.33, 0.06, "metric", "thirty five centimetres"),
        (1.24, 0.19, "metric", "one metre twenty"),
        (1.46, 0.24, "metric", "one metre fifty"),
        (1.46, 0.26, "metric", "one and a half metres"),
        (0.4, 0.3, "metric", "half a metre"),
        (2.7, 0.40, "metric", "two and a half metres"),
        (4.4, 0.66, "metric", "four metres"),
        (0.02, 0.06, "metric", "nearly touching"),
        (0.3, 0.06, "feet", "one foot"),
        (0.6, 0.09, "feet", "two feet"),
        (1.25, 0.19, "feet", "four feet"),
        (1.9, 0.29, "feet", "six feet"),
        (2.7, 0.61, "feet", "three yards"),
        (2.7, 0.4, "yards", "three yards"),
        (1.4, 0.3, "yards", "one and a half yards"),
        (0.5, 0.08, "yards", "one foot nine inches"),
    ],
)
def test_a_recomputed_distance_is_said_as_a_person_would_at_that_doubt(
    distance_m: float, sd_m: float, kind: Family, said: str
) -> None:
    assert worked_out(distance_m, sd_m, kind) == said


@given(st.floats(0, 9), st.floats(0.06, 1.5), st.sampled_from(["metric", "feet", "yards"]))
def test_a_recomputed_distance_has_no_decimals_and_is_within_its_rounding(
    distance_m: float, sd_m: float, kind: Family
) -> None:
    said = worked_out(distance_m, sd_m, kind)
    assert "point" not in said
    assert metres(said) == pytest.approx(rounded(distance_m, sd_m, kind), abs=0.006)
    # Rounding adds little to the doubt: a step is at most about twice the standard deviation.
    assert abs(rounded(distance_m, sd_m, kind) - distance_m) <= max(1.1 * sd_m, 0.04)


@given(st.floats(0.03, 9), st.floats(0.06, 1.5))
def test_the_terse_form_says_the_same_distance(distance_m: float, sd_m: float) -> None:
    assert metres(bare(distance_m, sd_m, "metric")) == pytest.approx(
        metres(worked_out(distance_m, sd_m, "metric"))
    )


def test_a_bare_number_that_could_be_an_hour_keeps_its_unit() -> None:
    assert bare(0.10, 0.06, "metric") == "ten centimetres"
    assert bare(0.15, 0.06, "metric") == "fifteen"


@pytest.mark.parametrize(
    ("number", "said"),
    [
        (0, "nought"),
        (19, "nineteen"),
        (20, "twenty"),
        (21, "twenty one"),
        (99, "ninety nine"),
        (100, "one hundred"),
        (121, "one hundred and twenty one"),
        (2026, "two thousand twenty six"),
    ],
)
def test_numbers_in_words_on_both_sides_of_every_bound(number: int, said: str) -> None:
    assert cardinal(number) == said


def test_ordinals_go_to_twentieth_and_then_by_number() -> None:
    assert [ordinal(number) for number in (1, 9, 20, 21)] == [
        "first",
        "ninth",
        "twentieth",
        "number twenty one",
    ]


def test_halves_and_tenths() -> None:
    assert [spoken(2.5), spoken(0.5), spoken(2.3)] == [
        "two and a half",
        "nought point five",
        "two point three",
    ]


def test_figures_from_other_stages_become_words() -> None:
    assert without_digits("law 10.1.3, 23 metres") == "law ten point one point three, twenty three metres"


def test_the_path_is_measured_in_paces_where_the_pace_is_known_and_what_lies_aside_never_is() -> None:
    paces = Preferences(pace_m=0.7)
    assert ahead_words(2.1, paces) == "three paces"
    assert ahead_words(0.7, paces) == "one pace"
    assert ahead_words(1.75, paces) == "two and a half paces"
    assert ahead_words(0.1, paces) == "half a pace"
    assert ahead_words(2.13, Preferences()) == "two metres ten"
    assert ahead_words(24.4, Preferences()) == "twenty four and a half metres"
    assert aside_words(0.42, paces) == "forty centimetres"
    assert aside_words(0.42, Preferences(units="feet")) == "one foot six inches"
