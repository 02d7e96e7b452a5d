"""How sure: the sample of whole heads against exact integrals and a general library's propagation."""

import math
from statistics import NormalDist
from typing import Any

import numpy as np
import pytest
from uncertainties import ufloat
from uncertainties.umath import cos, hypot, sin

from tests.head.acts import bowl, jack, lie, played
from voicecoach.head import picture
from voicecoach.head.bodies import seen
from voicecoach.head.clock import HOUR
from voicecoach.head.holding import holding
from voicecoach.head.sample import path_of, sampled
from voicecoach.head.values import Game, Head, Holding
from voicecoach.understand.notes.settings import Stands

BY_THE_HEAD = Stands(value="head")


def held(head: Head) -> Holding:
    found = picture(head).holding
    assert found is not None
    return found


def exact_order(nearer_m: float, farther_m: float, relative_sd: float) -> float:
    """P(nearer < farther) for independent log-normals, by an exact integral over the nearer one."""
    log_ratio = math.log(farther_m / nearer_m) / relative_sd
    steps = np.linspace(-8, 8, 4001)
    normal = NormalDist()
    density = np.exp(-(steps**2) / 2) / math.sqrt(math.tau)
    tail = np.array([1 - normal.cdf(float(z) - log_ratio) for z in steps])
    return float(np.sum(density * tail) * (steps[1] - steps[0]))


@pytest.mark.parametrize(("farther_m", "probability"), [(1.2, 0.805), (1.5, 0.972)])
def test_two_estimates_are_in_the_right_order_as_often_as_the_integral_says(
    farther_m: float, probability: float
) -> None:
    # Two log-normal estimates with relative standard deviation 0.15, independent (derived): 1.0 m against
    # 1.2 m 0.805, against 1.5 m 0.972. Across the line of sight, where the caller's own spread counts.
    assert exact_order(1.0, farther_m, 0.15) == pytest.approx(probability, abs=5e-4)
    found = held(played([bowl(1.0, 3), bowl(farther_m, 9)]).head)
    assert found.side == "ours"
    assert found.probability == pytest.approx(probability, abs=0.015)
    assert found.sure == (farther_m == 1.5)


def test_from_the_mat_the_line_of_sight_is_judged_worse_and_from_the_head_it_is_not() -> None:
    short = lie(played([bowl(2.0, 6)]).head, "our 1").gap_sd_m
    aside = lie(played([bowl(2.0, 3)]).head, "our 1").gap_sd_m
    assert short > 1.2 * aside
    close_short = lie(played([BY_THE_HEAD, bowl(2.0, 6)]).head, "our 1").gap_sd_m
    assert close_short == pytest.approx(aside, rel=0.02)


def test_no_distance_is_judged_finer_than_six_centimetres_but_touching_is_seen() -> None:
    assert lie(played([bowl(0.2, 3)]).head, "our 1").gap_sd_m == pytest.approx(0.06, rel=0.03)
    assert lie(played([bowl(0.0, 3)]).head, "our 1").gap_sd_m < 1e-9


def test_a_called_hour_is_uniform_over_its_width() -> None:
    # Whole-hour rounding is uniform over 30 degrees, 8.66 degrees root mean square: 30 / sqrt(12).
    head = played([bowl(1.0, 4), bowl(1.0, 3.5, hour_width=0.5)]).head
    widths = []
    for each in seen(head):
        right, past = sampled(head, each, path_of(head))
        widths.append(math.degrees(float(np.std(np.arctan2(right, past)))))
    assert widths[0] == pytest.approx(8.66, abs=0.01)
    assert widths[1] == pytest.approx(4.33, abs=0.01)


def test_the_sample_agrees_with_linear_propagation_where_that_holds() -> None:
    # `uncertainties` propagates linearly with every correlation: narrow hours keep it linear here.
    game = Game(relative_sd=0.05, widest_m=20.0)
    said: dict[str, Any] = {"hour_width": 0.2}
    head = played([BY_THE_HEAD, bowl(4.0, 9, **said), bowl(5.0, 7, **said), jack(2.0, 3, **said)], game).head
    move, way = ufloat(2.0, 0.1), ufloat(9.0, 0.2 / math.sqrt(12))
    jack_x, jack_y = move * sin(way * HOUR), move * cos(way * HOUR)
    gaps = []
    for number, (gap_m, hour) in enumerate([(4.0, 3.0), (5.0, 1.0)]):
        distance = ufloat(gap_m, 0.05 * gap_m) + 0.0925
        angle = ufloat(hour, 0.2 / math.sqrt(12)) * HOUR
        gap = hypot(distance * sin(angle) - jack_x, distance * cos(angle) - jack_y) - 0.0925
        found = lie(head, ("our 1", "their 1")[number])
        assert found.gap_m == pytest.approx(gap.nominal_value)
        assert found.gap_sd_m == pytest.approx(gap.std_dev, rel=0.05)
        gaps.append(gap)
    difference = gaps[0] - gaps[1]
    rows = [np.hypot(*sampled(head, each, path_of(head))) for each in seen(head)]
    assert float(np.std(rows[0] - rows[1])) == pytest.approx(difference.std_dev, rel=0.06)
    correlation = float(np.corrcoef(rows[0], rows[1])[0, 1])
    assert correlation > 0.1, "a jack move is common to every bowl"


def test_a_jack_move_widens_every_bowl_called_before_it_and_none_called_after() -> None:
    head = played([bowl(2.0, 3), jack(1.0, 9), bowl(2.0, 3)]).head
    before, after = lie(head, "our 1"), lie(head, "their 1")
    fresh = lie(played([bowl(2.0, 3)]).head, "our 1")
    assert before.gap_sd_m > fresh.gap_sd_m
    assert after.gap_sd_m == pytest.approx(fresh.gap_sd_m, rel=0.05)


def test_the_same_head_always_gives_the_same_picture() -> None:
    head = played([bowl(1.0, 3), bowl(1.1, 9), jack(0.3, 1), bowl(0.5, 6)]).head
    assert picture(head) == picture(head)


@pytest.mark.parametrize("hour", [12.0, 6.0, 3.0, 9.0, 1.0, 5.5, 12.5])
def test_a_half_of_the_green_is_named_only_where_it_is_right_nineteen_times_in_twenty(hour: float) -> None:
    head = played([bowl(1.0, hour, hour_width=1.0 if hour == int(hour) else 0.5), jack(0.2, 12)]).head
    found = lie(head, "our 1")
    right, past = sampled(head, seen(head)[0], path_of(head))
    if found.left_right is not None:
        wrong = np.mean(right < 0) if found.left_right == "right" else np.mean(right > 0)
        assert wrong <= 0.05
    if found.depth in ("short", "past"):
        assert np.mean(past > 0 if found.depth == "short" else past < 0) <= 0.05
    assert (found.left_right is None) == (hour in (12.0, 6.0))


def test_a_recomputed_hour_is_plain_about_or_between() -> None:
    plain = lie(played([bowl(3.0, 6), jack(0.3, 12)]).head, "our 1")
    assert (plain.hour, plain.sure, plain.between) == (6, "plain", None)
    about = lie(played([bowl(0.5, 12), jack(0.8, 12)]).head, "our 1")
    assert (about.hour, about.sure, about.between) == (6, "about", None)
    between = lie(played([bowl(1.5, 8), jack(0.5, 12)]).head, "our 1")
    assert (between.hour, between.sure, between.between) == (8, "between", (7, 8))


def test_both_touching_hold_nothing_and_that_is_sure() -> None:
    # Laws CM3, 24 (quoted): both touching, no score.
    found = held(played([bowl(0.0, 3), bowl(0.0, 9)]).head)
    assert (found.side, found.shots, found.sure) == (None, 0, True)


def test_one_side_alone_holds_with_every_bowl() -> None:
    found = held(played([bowl(0.8, 2, "our 1"), bowl(3.0, 2, "our 2")]).head)
    assert (found.side, found.shots, found.sure, found.probability) == ("ours", 2, True, 1.0)


def test_an_empty_head_has_no_holding_and_a_head_of_dead_bowls_has_no_shot() -> None:
    assert picture(Head()).holding is None
    found = held(played([bowl(name="our 1", remarks=("dead",))]).head)
    assert (found.side, found.shots, found.sure) == (None, 0, True)


def test_dead_bowls_do_not_count_and_touchers_in_the_ditch_do() -> None:
    # Laws CM3, 17.1.1 and 23 (quoted, read).
    notes = [bowl(1.5, 3, "our 1"), bowl(name="their 1", remarks=("in the ditch",))]
    assert held(played(notes).head).side == "ours"
    toucher = bowl(0.5, 12, "their 1", remarks=("toucher", "in the ditch"))
    assert held(played([notes[0], toucher]).head).side == "theirs"


def test_the_count_is_given_only_where_it_is_sure() -> None:
    clear = held(played([bowl(0.3, 3, "our 1"), bowl(0.5, 4, "our 2"), bowl(3.5, 9, "their 1")]).head)
    assert (clear.side, clear.shots, clear.sure) == ("ours", 2, True)
    open_count = held(played([bowl(0.3, 3, "our 1"), bowl(1.0, 4, "our 2"), bowl(1.05, 9, "their 1")]).head)
    assert (open_count.side, open_count.shots, open_count.sure) == ("ours", None, True)


def test_a_holding_from_gaps_alone_counts_as_the_laws_count() -> None:
    head = Head(bowls=played([bowl(1.0, 3), bowl(2.0, 9)]).head.bowls)
    found = holding(head, {("ours", 1): np.array([1.0, 1.0]), ("theirs", 1): np.array([2.0, 0.5])})
    assert found is not None
    assert found.probability == 0.5
    assert not found.sure
