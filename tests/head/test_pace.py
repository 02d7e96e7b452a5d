"""The pace of a green, the angle that follows, and what called bowls teach of it."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from voicecoach.head.angle import NAMED_SD_DEG, angle, spreads
from voicecoach.head.curve import Curve
from voicecoach.head.learning import shown_by
from voicecoach.head.pace import angle_at, angle_of_aim, at_27_m, pace, slowing
from voicecoach.head.values.bowling import Bowling, Line, way_out
from voicecoach.head.values.tally import Tally


def tally(*figures: float) -> Tally:
    kept = Tally()
    for figure in figures:
        kept = kept.with_figure(figure)
    return kept


def test_the_usual_bowl_is_the_published_one() -> None:
    # R. Cross, "The trajectory of a ball in lawn bowls", American Journal of Physics 66, 1998, introduction
    # (read): launched at about 4 m/s, about ten degrees off the line, about 14 s over about 25 m.
    usual = angle(Bowling(), "forehand")
    assert usual.by == "usual"
    assert usual.deg == pytest.approx(10.0)
    line = Curve(0.0, 25.0, math.radians(usual.deg), True)
    first_speed = math.sqrt(2 * slowing(at_27_m(14.0, 25.0)) * float(line.length_m))
    assert first_speed == pytest.approx(4.0, rel=0.15)


def test_a_bowl_takes_the_pace_to_run_27_m() -> None:
    # Derived: from a speed of a T the bowl stops after T seconds and a T^2 / 2 metres.
    for seconds in (10.0, 14.0, 19.0):
        assert slowing(seconds) * seconds**2 / 2 == pytest.approx(27.0)


def test_a_time_over_another_length_is_brought_to_27_m() -> None:
    # Derived: the square of the time goes with the length.
    assert at_27_m(14.0, 27.0) == 14.0
    assert at_27_m(13.0, 23.0) ** 2 == pytest.approx(13.0**2 * 27 / 23)


def test_a_pace_alone_changes_the_angle_by_the_square_of_its_ratio() -> None:
    slow = angle(Bowling(pace_s=10.0), "backhand")
    assert slow.by == "pace"
    assert slow.roughly
    assert math.tan(math.radians(slow.deg)) == pytest.approx(
        math.tan(math.radians(10.0)) * (10 / 14) ** 2, rel=1e-9
    )
    assert angle_at(14.0) == pytest.approx(10.0)


def test_what_was_timed_counts_before_what_was_said() -> None:
    assert pace(Bowling(pace_s=14.0)) == 14.0
    assert pace(Bowling(pace_s=14.0, timed=tally(12.0, 13.0))) == 12.5
    assert pace(Bowling()) is None


def test_a_named_line_needs_no_pace() -> None:
    # Derived: 90 cm wide at a mark 5 m away is an angle whose tangent is 0.18.
    named = angle_of_aim(0.9, 5.0)
    assert named == pytest.approx(10.204, abs=1e-3)
    bowling = Bowling(pace_s=10.0, forehand=Line(angle_deg=named))
    assert angle(bowling, "forehand").deg == named
    assert angle(bowling, "backhand").by == "pace"
    assert not angle(bowling, "forehand").roughly


def test_a_bowl_shows_its_bend_by_where_it_comes_to_rest() -> None:
    # A bowl aimed twelve degrees out that comes to rest two degrees on the side it went out to bent by ten.
    two_right = math.tan(math.radians(2))
    assert shown_by(12.0, "right", two_right) == pytest.approx(10.0)
    assert shown_by(12.0, "left", two_right) == pytest.approx(14.0)
    assert shown_by(12.0, "left", -two_right) == pytest.approx(10.0)


@given(true_deg=st.floats(5, 16), aim_deg=st.floats(5, 16), length_m=st.floats(21, 35), right=st.booleans())
@settings(deadline=None, max_examples=60)
def test_a_bowl_that_bends_so_much_shows_just_that_at_any_length(
    true_deg: float, aim_deg: float, length_m: float, right: bool
) -> None:
    off = math.radians(aim_deg - true_deg) * (1 if right else -1)
    rest = (length_m * math.sin(off), length_m * math.cos(off))
    first = Curve(*rest, math.radians(true_deg), right).points(9_000)[1]
    sent = math.degrees(math.atan2(first[0], first[1])) * (1 if right else -1)
    assert sent == pytest.approx(aim_deg, abs=0.05), "the spiral to its place of rest leaves on the aim"
    assert shown_by(aim_deg, "right" if right else "left", math.tan(off)) == pytest.approx(true_deg, abs=1e-6)


def test_called_bowls_draw_the_named_angle_to_what_they_show_and_narrow_its_interval() -> None:
    before = angle(Bowling(forehand=Line(angle_deg=10.0)), "forehand")
    two = angle(Bowling(forehand=Line(angle_deg=10.0, shown=tally(11.0, 11.4))), "forehand")
    many = angle(Bowling(forehand=Line(angle_deg=10.0, shown=tally(*[11.2] * 12))), "forehand")
    assert before.deg < two.deg < many.deg < 11.2
    assert before.sd_deg == NAMED_SD_DEG
    assert before.sd_deg > two.sd_deg > many.sd_deg
    assert (two.by, two.bowls) == ("shown", 2)
    low, high = many.interval_deg
    assert low < 11.2 < high
    assert high - low < 1.0


def test_the_weight_of_each_bowl_is_that_of_normal_doubts() -> None:
    # The mean of two normal doubts, each weighed by its inverse variance (textbook); derived by hand:
    # one bowl's spread is atan(0.3 / 27) = 0.6366 degrees, so one bowl counts 2.467 times the naming.
    one = angle(Bowling(forehand=Line(angle_deg=10.0, shown=tally(12.0))), "forehand")
    assert one.deg == pytest.approx((10.0 + 2.4674 * 12.0) / 3.4674, abs=1e-3)
    assert one.sd_deg == pytest.approx(1 / math.sqrt(3.4674), abs=1e-3)


def test_the_players_own_spread_counts_from_eight_bowls() -> None:
    seven, eight = tally(*[0.01, -0.01] * 3, 0.01), tally(*[0.01, -0.01] * 4)
    assert not spreads(Bowling(across=seven, along=seven), 27.0).own
    assert spreads(Bowling(), 23.0)[:2] == (0.3, 0.8)
    own = spreads(Bowling(across=eight, along=tally(*[1.0, -1.0] * 4)), 27.0)
    assert own.own
    assert own.across_m == pytest.approx(27 * 0.01 * math.sqrt(8 / 7))
    assert own.along_m == pytest.approx(math.sqrt(8 / 7))


def test_a_tally_is_the_mean_and_the_spread_of_its_figures() -> None:
    kept = tally(1.0, 2.0, 4.0, 9.0)
    assert (kept.count, kept.mean) == (4, 4.0)
    assert kept.spread == pytest.approx(math.sqrt((9 + 4 + 0 + 25) / 3))
    assert tally(3.0).spread is None


def test_a_left_handers_hands_go_the_other_way() -> None:
    # Trade knowledge: a right-hander's forehand goes out to the right.
    assert way_out("forehand", "right") == way_out("backhand", "left") == "right"
    assert way_out("backhand", "right") == way_out("forehand", "left") == "left"
    assert way_out("forehand", None) == "right"
