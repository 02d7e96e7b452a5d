"""What called bowls show of the player: kept through the session, put right with what is put right."""

import math

import pytest

from tests.head.acts import bowl, jack, named, played
from voicecoach.head.angle import angle, spreads
from voicecoach.head.learning import bowling_now
from voicecoach.head.values import Bowling, Game, Head, Line, Play
from voicecoach.understand.values import BowlMoved, Corrected, EndFinished, EndStarted, TakenBack

NAMED = Game(hand="right", bowling=Bowling(forehand=Line(angle_deg=10.0), on_hand="forehand"))


def shown(head: Head) -> tuple[int, float]:
    line = bowling_now(head).line("forehand")
    return line.shown.count, line.shown.mean


def wide(metres: float) -> float:
    """The degrees at the mat of a bowl that lies so far right of the jack, between centres, at 27 m."""
    return math.degrees(math.atan2(metres, 27.0))


def test_a_bowl_that_came_to_rest_wide_bent_less_and_one_that_crossed_over_bent_more() -> None:
    # Derived: aimed ten degrees to the right, a bowl that rests right of the line has bent by less than ten.
    right = played([bowl(along_m=0.0, across_m=0.9, name="our 1")], NAMED).head
    assert shown(right) == pytest.approx((1, 10.0 - wide(0.9925)), abs=1e-6)
    left = played([bowl(along_m=0.0, across_m=-0.9, name="our 1")], NAMED).head
    assert shown(left) == pytest.approx((1, 10.0 + wide(0.9925)), abs=1e-6)
    assert angle(bowling_now(left), "forehand").by == "shown"
    assert angle(bowling_now(left), "backhand").by == "usual"


def test_their_bowls_and_bowls_with_no_line_named_show_no_angle() -> None:
    assert shown(played([bowl(0.9, 3, "their 1")], NAMED).head)[0] == 0
    unnamed = played([bowl(0.9, 3, "our 1")]).head
    assert bowling_now(unnamed).across.count == 1
    assert shown(unnamed)[0] == 0


def test_a_bowl_counts_as_it_came_to_rest_whatever_moves_later() -> None:
    play = played([bowl(0.9, 3, "our 1")], NAMED)
    before = shown(play.head)
    knocked = played([BowlMoved(side="ours", number=1, gap_m=3.0, hour=12.0), jack(1.0, 12)], play=play)
    assert shown(knocked.head) == before
    put_right = played([Corrected(target=named("our 1"), gap_m=2.5)], play=knocked)
    assert shown(put_right.head) == before, "a correction of where it lies now is none of how it came"


def test_a_correction_and_a_note_taken_back_change_what_was_shown() -> None:
    play = played([bowl(0.9, 3, "our 1")], NAMED)
    corrected = played([Corrected(hour=9.0)], play=play)
    assert shown(corrected.head) == pytest.approx((1, 10.0 + wide(0.9925)), abs=1e-6)
    by_name = played([bowl(1, 6, "their 1"), Corrected(target=named("our 1"), hour=9.0)], play=play)
    assert shown(by_name.head) == shown(corrected.head)
    assert shown(played([TakenBack()], play=play).head)[0] == 0
    theirs = played([Corrected(side="theirs")], play=play)
    assert bowling_now(theirs.head).across.count == 0


def _an_end(play: Play) -> Play:
    return played(
        [bowl(0.9, 3, "our 1"), bowl(0.5, 9, "our 2"), EndFinished(side="ours", shots=2), EndStarted()],
        play=play,
    )


def test_bowls_of_ended_ends_are_kept_and_an_end_begun_by_mistake_is_not_counted_twice() -> None:
    first = _an_end(played([], NAMED))
    assert first.head.bowls == ()
    assert shown(first.head)[0] == 2
    second = _an_end(first)
    assert shown(second.head)[0] == bowling_now(second.head).across.count == 4
    back = played([TakenBack()], play=second)
    assert shown(back.head)[0] == 4
    assert back.head.game.bowling.across.count == 2


def test_from_the_eighth_bowl_the_players_own_spread_counts() -> None:
    play = played([], NAMED)
    for _ in range(3):
        play = _an_end(play)
    assert not spreads(bowling_now(play.head), 27.0).own
    play = _an_end(play)
    own = spreads(bowling_now(play.head), 27.0)
    assert own.own
    rights = [math.tan(math.atan2(0.9925, 27.0)), -math.tan(math.atan2(0.5925, 27.0))] * 4
    mean = sum(rights) / 8
    assert own.across_m == pytest.approx(
        27 * math.sqrt(sum((each - mean) ** 2 for each in rights) / 7), rel=1e-3
    )


def test_a_line_named_anew_begins_anew() -> None:
    play = played([bowl(0.9, 3, "our 1")], NAMED)
    anew = play.head.game.bowling.with_line("forehand", Line(angle_deg=12.0))
    head = play.head.model_copy(update={"game": play.head.game.model_copy(update={"bowling": anew})})
    assert shown(head)[0] == 0
    assert angle(bowling_now(head), "forehand").deg == 12.0
    assert bowling_now(head).across.count == 1, "its spread is the player's whatever the line"


def test_a_left_handers_forehand_learns_the_other_way() -> None:
    left = Game(hand="left", bowling=NAMED.bowling)
    head = played([bowl(along_m=0.0, across_m=-0.9, name="our 1")], left).head
    assert shown(head) == pytest.approx((1, 10.0 - wide(0.9925)), abs=1e-6)
