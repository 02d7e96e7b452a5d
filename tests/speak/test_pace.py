"""Pace: words a minute and what is made of them."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from voicecoach.speak import pace
from voicecoach.speak.calibration import calibrate
from voicecoach.speak.values import Sound


@given(st.floats(-1e6, 1e6))
def test_any_pace_asked_for_is_brought_within_what_can_be_spoken(wanted: float) -> None:
    made = pace.pace(wanted)
    assert 80 <= made.words_per_minute <= 450
    assert 0 < made.gaps <= pace.LONGEST_GAPS


def test_the_default_is_within_what_is_comfortable() -> None:
    # 120 to 180 words a minute is comfortable speech (Bragg, Reinecke and Ladner 2021; quoted).
    assert 120 <= pace.DEFAULT_WPM <= 180
    assert pace.pace(pace.DEFAULT_WPM).gaps == pytest.approx(1.0)


def test_slower_than_the_default_the_words_stay_and_the_gaps_grow() -> None:
    usual, slower = pace.pace(160), pace.pace(125)
    assert slower.words_per_minute == pytest.approx(usual.words_per_minute)
    assert slower.gaps > 2


def test_faster_means_quicker_words_and_shorter_gaps() -> None:
    usual, faster = pace.pace(160), pace.pace(240)
    assert faster.words_per_minute > usual.words_per_minute
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
        return 60 / made.words_per_minute + made.gaps * pace.GAP_S_A_WORD

    assert word_s(wanted + 1) <= word_s(wanted) + 1e-9


@given(st.floats(0.6, 1.4), st.floats(60, 250), st.floats(90, 380))
def test_a_voice_measured_twice_is_asked_for_the_rate_that_gives_the_pace_wanted(
    power: float, slow_wpm: float, wanted: float
) -> None:
    def speak(clause: str, rate: int) -> Sound:
        seconds = 60 * len(clause.split()) / (slow_wpm * (rate / 150) ** power)
        return Sound(samples=np.zeros(round(seconds * 1_000_000), np.float32), rate_hz=1_000_000)

    measured = calibrate(speak)
    rate = measured.engine_rate(wanted)
    given_wpm = slow_wpm * (rate / 150) ** power
    assert rate in (80, 450) or given_wpm == pytest.approx(wanted, rel=0.02)
