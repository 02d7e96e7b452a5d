"""Pace: words a minute and what is made of them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from voicecoach.speak import pace


@given(st.floats(-1e6, 1e6))
def test_any_pace_asked_for_is_brought_within_what_can_be_spoken(wanted: float) -> None:
    made = pace.pace(wanted)
    assert 80 <= made.engine_rate <= 450
    assert 0 < made.gaps <= pace.LONGEST_GAPS


def test_the_default_is_within_what_is_comfortable() -> None:
    # 120 to 180 words a minute is comfortable speech (Bragg, Reinecke and Ladner 2021; quoted).
    assert 120 <= pace.DEFAULT_WPM <= 180
    assert pace.pace(pace.DEFAULT_WPM).gaps == pytest.approx(1.0)


def test_slower_than_the_default_the_words_stay_and_the_gaps_grow() -> None:
    usual, slower = pace.pace(160), pace.pace(125)
    assert slower.engine_rate == usual.engine_rate
    assert slower.gaps > 2


def test_faster_means_quicker_words_and_shorter_gaps() -> None:
    usual, faster = pace.pace(160), pace.pace(240)
    assert faster.engine_rate > usual.engine_rate
    assert faster.gaps < usual.gaps


def test_five_steps_reach_the_slowest_and_the_fastest_and_each_step_changes_something() -> None:
    paces = [pace.stepped(steps) for steps in range(-5, 6)]
    assert (paces[0], paces[5], paces[-1]) == (80, 160, 350)
    assert paces == sorted(set(paces))
    assert pace.stepped(-99) == 80
    assert pace.stepped(99) == 350


@given(st.floats(80, 349))
def test_a_pace_asked_for_a_little_faster_is_never_slower(wanted: float) -> None:
    def word_s(words_per_minute: float) -> float:
        made = pace.pace(words_per_minute)
        return 60 / made.engine_rate + made.gaps * pace.GAP_S_A_WORD

    assert word_s(wanted + 1) <= word_s(wanted) + 0.004  # the engine's rate is a whole number
