"""Clock and point, and back."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from voicecoach.head.clock import apart, hour_of, offset, snapped, turned


@given(st.floats(0.001, 12, allow_nan=False), st.floats(0.01, 50))
def test_an_hour_and_a_distance_become_a_point_and_back(hour: float, distance_m: float) -> None:
    right, past = offset(hour, distance_m)
    assert apart(hour_of(right, past), hour) < 1e-6
    assert math.hypot(right, past) == pytest.approx(distance_m)


@given(st.floats(-40, 40), st.floats(-40, 40))
def test_an_hour_is_above_zero_and_never_above_twelve(right: float, past: float) -> None:
    assert 0 < hour_of(right, past) <= 12
    assert snapped(hour_of(right, past)) in range(1, 13)


@pytest.mark.parametrize(
    ("right", "past", "hour"), [(0.0, 1.0, 12.0), (1.0, 0.0, 3.0), (0.0, -1.0, 6.0), (-1.0, 0.0, 9.0)]
)
def test_twelve_is_past_the_jack_and_three_is_right(right: float, past: float, hour: float) -> None:
    # Welsh and London vision-impaired bowls pages (read): 6 o'clock is short, 12 is behind the jack;
    # 3 o'clock to the right as seen from the mat is derived.
    assert hour_of(right, past) == pytest.approx(hour)


@pytest.mark.parametrize(
    ("exact", "spoken"), [(2.49, 2), (2.5, 3), (11.5, 12), (12.0, 12), (0.49, 12), (0.5, 1), (12.5, 1)]
)
def test_a_recomputed_hour_goes_to_the_nearest_and_half_way_goes_clockwise(exact: float, spoken: int) -> None:
    assert snapped(exact) == spoken


@given(st.integers(1, 24))
def test_someone_who_faces_the_mat_reads_every_hour_plus_six(half_hours: int) -> None:
    # From behind the head every hour reads six more (derived).
    hour = half_hours / 2
    assert apart(turned(hour), hour) == 6
    assert turned(turned(hour)) == hour
    assert 0 < turned(hour) <= 12
