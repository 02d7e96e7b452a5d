"""Means, spreads and trends: right where there is enough, silent where there isn't."""

import math
import random

import pytest

from voicecoach.coach.figures import MEAN_FROM, SPREAD_FROM, TREND_BOWLS, ellipse, figure, trend
from voicecoach.coach.quantiles import student


# Student's t, upper 2.5 in a hundred (any printed table of the t distribution; memory).
@pytest.mark.parametrize(
    ("freedom", "table"),
    [(4, 2.776), (5, 2.571), (7, 2.365), (10, 2.228), (20, 2.086), (30, 2.042), (120, 1.980)],
)
def test_students_t_agrees_with_the_printed_table(freedom: int, table: float) -> None:
    assert student(0.975, freedom) == pytest.approx(table, rel=0.003)


def test_a_mean_and_its_interval_are_those_of_the_textbook() -> None:
    found = figure([1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0])
    assert found.count == 8
    assert found.mean == 4.5
    assert found.spread == pytest.approx(6.0**0.5)  # 42 / 7 (derived)
    assert found.half == pytest.approx(2.365 * 6.0**0.5 / 8**0.5, rel=0.003)
    assert found.leans


@pytest.mark.parametrize("count", range(MEAN_FROM))
def test_from_too_few_bowls_nothing_is_claimed(count: int) -> None:
    found = figure([5.0] * count)
    assert (found.count, found.mean, found.half, found.spread, found.leans) == (
        count,
        None,
        None,
        None,
        False,
    )


def test_a_spread_takes_more_bowls_than_a_mean() -> None:
    values = [0.1 * place for place in range(SPREAD_FROM)]
    assert figure(values[:-1]).mean is not None
    assert figure(values[:-1]).spread is None
    assert figure(values).spread is not None


def test_intervals_hold_the_truth_as_often_as_they_say() -> None:
    chance = random.Random(20260530)
    held = 0
    for _ in range(2000):
        found = figure([chance.gauss(0.3, 0.8) for _ in range(6)])
        assert found.mean is not None
        assert found.half is not None
        held += abs(found.mean - 0.3) <= found.half
    assert 0.935 <= held / 2000 <= 0.965


def test_a_lean_that_is_not_there_is_claimed_one_time_in_twenty_at_most() -> None:
    chance = random.Random(7)
    claimed = sum(figure([chance.gauss(0, 1) for _ in range(10)]).leans for _ in range(2000))
    assert claimed / 2000 <= 0.065


def test_a_trend_is_the_line_of_least_squares() -> None:
    points = [(end, 2.0 - 0.1 * end + wobble) for end in range(1, 7) for wobble in (-0.01, 0.01)]
    found = trend(points)
    assert found.slope == pytest.approx(-0.1)
    assert found.shows
    assert (found.bowls, found.ends) == (12, 6)


def test_a_trend_is_not_drawn_from_too_few_bowls_or_ends() -> None:
    few_bowls = [(end, float(end)) for end in range(1, TREND_BOWLS)]
    few_ends = [(1 + place % 3, float(place)) for place in range(30)]
    for points in ([], few_bowls, few_ends):
        found = trend(points)
        assert found.slope is None
        assert not found.shows
    assert (trend(few_ends).bowls, trend(few_ends).ends) == (30, 3)


def test_a_trend_that_is_not_there_is_claimed_one_time_in_twenty_at_most() -> None:
    chance = random.Random(11)
    claimed = sum(
        trend([(end, chance.gauss(1, 0.5)) for end in range(1, 9) for _ in range(4)]).shows
        for _ in range(1000)
    )
    assert claimed / 1000 <= 0.07


def test_the_ellipse_of_a_mean_holds_the_truth_as_often_as_it_says() -> None:
    chance = random.Random(3)
    held = 0
    for _ in range(2000):
        places = []
        for _ in range(8):
            across, along = chance.gauss(0, 0.5), chance.gauss(0, 1.0)
            places.append((0.3 + across + 0.4 * along, -0.2 + along))
        found = ellipse(places)
        assert found is not None
        x, y = 0.3 - found.across, -0.2 - found.along
        long = x * math.cos(found.turn) + y * math.sin(found.turn)
        short = y * math.cos(found.turn) - x * math.sin(found.turn)
        held += (long / found.long) ** 2 + (short / found.short) ** 2 <= 1
    assert 0.935 <= held / 2000 <= 0.965
    assert ellipse([(0.0, 1.0)] * (MEAN_FROM - 1)) is None


def test_the_band_round_a_trend_is_narrowest_in_the_middle_and_holds_the_line() -> None:
    chance = random.Random(5)
    held = 0
    for _ in range(1000):
        found = trend(
            [(end, 1.0 - 0.1 * end + chance.gauss(0, 0.5)) for end in range(1, 9) for _ in range(3)]
        )
        level, half = found.at(8)
        held += abs(level - 0.2) <= half
    assert 0.93 <= held / 1000 <= 0.97
    assert found.at(4.5)[1] < found.at(1)[1] == pytest.approx(found.at(8)[1])
