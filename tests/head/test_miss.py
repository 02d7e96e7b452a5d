"""Line and weight of our last bowl, the next one's length, where the lines turn, looks that file nothing."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.head.acts import bowl, jack, named, played
from tests.head.test_path import bowls_so
from voicecoach.head import picture
from voicecoach.head.miss import miss, weight
from voicecoach.head.path import Target, the_jack, the_place
from voicecoach.head.turning import turning
from voicecoach.head.values import AskBack, Game, Head, Picture, Refused
from voicecoach.head.values.bowling import Bowling, Line
from voicecoach.head.values.looks import Miss
from voicecoach.head.what_if import with_jack_moved, without
from voicecoach.understand.values import JackMoved

REACH = 0.0925


def missed(head: Head) -> Miss:
    found = miss(head)
    assert found is not None
    return found


def last(across_m: float, along_m: float) -> Head:
    """A head whose last bowl of ours lies so far right of the jack and past it, between centres."""
    filed = played([bowl(3.0, 6, "our 1")]).head
    laid = filed.bowls[0].model_copy(update={"x_m": across_m, "y_m": 27.0 + along_m})
    return filed.model_copy(update={"bowls": (laid,)})


def test_a_bowl_on_its_line_and_short_missed_by_weight_alone() -> None:
    found = missed(last(0.0, -2.0))
    assert (found.line, found.weight) == (False, True)
    assert found.right_m == pytest.approx(0.0)
    assert found.past_m == pytest.approx(-2.0)


def test_a_bowl_of_good_length_and_wide_missed_by_line_alone() -> None:
    found = missed(last(1.0, -0.02))
    assert (found.line, found.weight) == (True, False)
    assert found.right_m == pytest.approx(1.0, abs=0.01)


def test_a_short_bowl_to_the_right_of_the_jack_may_still_be_on_its_line() -> None:
    # Bowls sent on one line at different speeds finish on one straight line (Judson, "Taking Aim", 2002,
    # read): with the jack a metre right of the middle, that line leads through (0.926, 25).
    filed = played([jack(1.0, 3), bowl(3.0, 6, "our 1")]).head
    laid = filed.bowls[0].model_copy(update={"x_m": 25 / 27, "y_m": 25.0})
    found = missed(filed.model_copy(update={"bowls": (laid,)}))
    assert (found.line, found.weight) == (False, True)
    assert found.right_m == pytest.approx(0.0, abs=1e-9)


@given(turned_deg=st.floats(-3, 3), longer_m=st.floats(-4, 4))
@settings(deadline=None, max_examples=60)
def test_line_and_weight_together_are_the_whole_miss(turned_deg: float, longer_m: float) -> None:
    ran, turned = 27.0 + longer_m, math.radians(turned_deg)
    found = missed(last(ran * math.sin(turned), ran * math.cos(turned) - 27.0))
    assert found.past_m == pytest.approx(longer_m, abs=1e-9)
    assert found.right_m == pytest.approx(27.0 * math.tan(turned), abs=1e-9)
    assert found.line == (abs(found.right_m) >= 0.3)
    assert found.weight == (abs(longer_m) >= 0.8)


def test_without_a_bowl_of_ours_there_is_no_miss() -> None:
    assert miss(played([bowl(1.0, 3, "their 1")]).head) is None
    assert weight(played([]).head, _jack(played([]).head)) is None
    assert miss(played([bowl(name="our 1", remarks=("dead",))]).head) is None


def _jack(head: Head) -> Target:
    found = the_jack(head)
    assert found is not None
    return found


def test_the_weight_of_the_next_bowl_is_told_from_the_last_one() -> None:
    head = played([bowl(2.0, 6, "our 1"), bowl(1.0, 3, "their 1")]).head
    found = weight(head, _jack(head))
    assert found is not None
    assert found.bowl == named("our 1")
    assert found.longer_m == pytest.approx(2.0 + REACH)
    # Derived: the length of a run goes with the square of its first speed.
    assert (1 + found.faster) ** 2 == pytest.approx(27.0 / (27.0 - 2.0 - REACH))
    past = the_place(head, 0.0, 1.0)
    assert past is not None
    further = weight(head, past)
    assert further is not None
    assert further.longer_m == pytest.approx(3.0 + REACH)


def test_the_lines_turn_where_they_are_widest_and_their_aim_is_told_at_three_marks() -> None:
    head = played([], Game(green_m=36.0, mat_m=4.0, hand="right")).head
    fore, back = turning(head, _jack(head))
    assert (fore.hand, fore.out, back.out) == ("forehand", "right", "left")
    assert fore.up_m == pytest.approx(17.12, abs=0.01)
    assert fore.aside_m == pytest.approx(1.742, abs=0.001)
    assert fore.mark_m == pytest.approx((5.0, 0.882), abs=0.001)
    assert fore.target_m == pytest.approx((27.0, 4.761), abs=0.001)
    assert fore.ditch_m == pytest.approx((32.0, 5.642), abs=0.001)
    assert fore.roughly
    only = turning(bowls_so(head, Bowling(forehand=Line(angle_deg=8.0))), _jack(head), "forehand")
    assert [each.angle_deg for each in only] == [8.0]
    assert not only[0].roughly


def test_without_the_greens_length_nothing_is_said_of_the_ditch() -> None:
    head = played([]).head
    assert turning(head, _jack(head))[0].ditch_m is None


def test_a_bowl_taken_away_leaves_the_shot_to_the_next_and_files_nothing() -> None:
    play = played([bowl(0.3, 3, "their 1"), bowl(1.0, 9, "our 1"), bowl(3.0, 12, "their 2")])
    before = play.head
    assert _holds(picture(before)) == ("theirs", 1)
    assert _holds(without(before, named("their 1"))) == ("ours", 1)
    assert play.head == before


def test_a_jack_moved_in_thought_changes_who_holds_and_files_nothing() -> None:
    play = played([bowl(0.3, 6, "our 1"), bowl(1.2, 12, "their 1")])
    before = play.head
    assert _holds(picture(before)) == ("ours", 1)
    moved = with_jack_moved(play, JackMoved(gap_m=1.0, hour=12.0))
    assert isinstance(moved, Picture)
    assert _holds(moved) == ("theirs", 1)
    assert play.head == before


def test_a_jack_moved_in_thought_needs_as_much_as_one_moved_in_truth() -> None:
    play = played([bowl(0.3, 6, "our 1")])
    assert isinstance(with_jack_moved(play, JackMoved(hour=12.0)), AskBack)
    assert not isinstance(with_jack_moved(play, JackMoved(gap_m=0.5, hour=12.0)), AskBack | Refused)


def _holds(found: Picture) -> tuple[str | None, int | None]:
    assert found.holding is not None
    assert found.holding.sure
    return found.holding.side, found.holding.shots
