"""Where a called bowl is filed: words for directions, two distances, bowls called alike."""

import math
from typing import Any

import pytest
from pydantic import ValidationError

from tests.head.acts import asked, bowl, decided, lie, named, place, played, refused, spoken
from voicecoach.head import begin, decide, evolve, picture
from voicecoach.head.values import Event, Game
from voicecoach.understand.notes.settings import Stands
from voicecoach.understand.values import BowlMoved, Corrected, JackSet

RIGHT_HANDER = Game(hand="right")
LEFT_HANDER = Game(hand="left")


@pytest.mark.parametrize(
    ("words", "hour"),
    [
        (("short",), 6.0),
        (("past",), 12.0),
        (("left",), 9.0),
        (("right",), 3.0),
        (("short", "left"), 7.5),
        (("right", "short"), 4.5),
        (("past", "left"), 10.5),
        (("past", "right"), 1.5),
    ],
)
def test_a_direction_in_words_is_an_hour_or_half_way_between_two(words: tuple[str, ...], hour: float) -> None:
    # "Three yards at 6 o'clock": three yards short, in line (UK blind-bowls pages, read). Half-way
    # between two words: common practice, no source.
    found = lie(played([bowl(1.0, remarks=words)]).head, "our 1")
    assert found.hour_exact == pytest.approx(hour)
    assert found.gap_m == pytest.approx(1.0)
    assert found.hour == hour


def test_two_distances_are_gaps_along_and_across_the_rink() -> None:
    found = lie(played([bowl(along_m=-1.0, across_m=0.3)]).head, "our 1")
    assert found.along_m == pytest.approx(-1.0 - 0.0925)
    assert found.across_m == pytest.approx(0.3 + 0.0925)


@pytest.mark.parametrize(
    ("game", "words", "side"),
    [
        (RIGHT_HANDER, ("wide", "forehand"), "right"),
        (RIGHT_HANDER, ("narrow", "forehand"), "left"),
        (RIGHT_HANDER, ("wide", "backhand"), "left"),
        (RIGHT_HANDER, ("narrow", "backhand"), "right"),
        (LEFT_HANDER, ("wide", "forehand"), "left"),
        (LEFT_HANDER, ("narrow", "forehand"), "right"),
        (LEFT_HANDER, ("wide", "backhand"), "right"),
        (LEFT_HANDER, ("narrow", "backhand"), "left"),
    ],
)
def test_wide_and_narrow_go_by_the_hand_and_the_bias(game: Game, words: tuple[str, ...], side: str) -> None:
    # A right-hander's forehand runs out to the right and bends back to the left (common practice, no source).
    found = lie(played([bowl(0.5, remarks=words)], game).head, "our 1")
    assert found.left_right == side
    assert found.hour == (3 if side == "right" else 9)


@pytest.mark.parametrize(
    ("game", "note"),
    [
        (Game(), bowl(0.5, remarks=("wide", "forehand"))),
        (RIGHT_HANDER, bowl(0.5, remarks=("wide",))),
        (RIGHT_HANDER, bowl(0.5, name="their 1", remarks=("wide", "forehand"))),
        (Game(), bowl(0.5, remarks=("jack high",))),
    ],
)
def test_a_side_that_nothing_tells_is_asked_for(game: Game, note: Any) -> None:
    question = asked(begin(game), note)
    assert question.slot == "left or right"
    assert question.answers == ("left", "right")
    for choice, side in zip(question.choices, question.answers, strict=True):
        play = begin(game)
        event = decided(play, choice)
        head = evolve(play, event).head
        assert picture(head).lies[0].left_right == side


@pytest.mark.parametrize(
    ("note", "slot"),
    [
        (bowl(None, 3), "gap"),
        (bowl(None, remarks=("left",)), "gap"),
        (bowl(0.5), "hour"),
        (bowl(None, remarks=("touching",)), "hour"),
        (bowl(0.5, remarks=("short", "past")), "hour"),
        (bowl(), "gap"),
        (BowlMoved(side="ours", number=1, gap_m=1.0), "hour"),
    ],
)
def test_a_place_needs_a_distance_and_a_direction(note: Any, slot: str) -> None:
    play = played([bowl(2.0, 6, "our 1")]) if isinstance(note, BowlMoved) else begin()
    assert asked(play, note).slot == slot


def test_a_bowl_that_rests_against_the_jack_is_a_toucher() -> None:
    # Laws CM3, 14.1 (read): it has touched the jack in its original course.
    found = lie(played([bowl(None, 4, remarks=("touching",))]).head, "our 1")
    assert found.toucher
    assert found.gap_m == pytest.approx(0.0, abs=1e-8)
    near = lie(played([bowl(0.3, 4, remarks=("toucher",))]).head, "our 1")
    assert near.toucher
    assert near.gap_m == pytest.approx(0.3)
    assert not lie(played([bowl(0.3, 4)]).head, "our 1").toucher


def test_two_bowls_called_alike_are_set_apart_touching() -> None:
    play = played([bowl(0.8, 2, "our 1"), bowl(0.8, 2, "their 1")])
    first, second = place(play.head, "our 1"), place(play.head, "their 1")
    assert first == pytest.approx((0.8925 * math.sin(math.pi / 3), 27 + 0.8925 * math.cos(math.pi / 3)))
    assert math.dist(first, second) == pytest.approx(0.121, abs=1e-6)
    assert lie(play.head, "their 1").gap_m == pytest.approx(0.8, abs=1e-6), "it slides round the face"
    assert lie(play.head, "their 1").hour == 2


def test_bowls_called_alike_are_set_apart_until_the_doubt_has_no_room_and_then_the_hour_is_asked() -> None:
    play = begin()
    for count in range(1, 9):
        decision = decide(play, bowl(0.3, 2, f"our {count}", hour_width=0.2))
        if not isinstance(decision, Event):
            break
        play = evolve(play, decision)
    question = asked(play, bowl(0.3, 2, f"our {count}", hour_width=0.2))
    assert count > 2, "the doubt explains two"
    assert question.slot == "hour"
    assert len(question.choices) == 2
    assert "in the way" in spoken(question)
    for choice in question.choices:
        assert isinstance(decide(play, choice), Event)


def test_two_bowls_dead_on_the_same_hour_against_the_jack_are_asked_about() -> None:
    play = played([bowl(0.0, 3, hour_width=0.1)])
    assert asked(play, bowl(0.0, 3, hour_width=0.1)).slot == "hour"


def test_a_second_note_that_the_doubt_explains_sharpens_the_place() -> None:
    once = played([bowl(1.0, 3, "our 1")])
    twice = played([bowl(1.2, 3, "our 1")], play=once)
    before, after = lie(once.head, "our 1"), lie(twice.head, "our 1")
    assert len(twice.head.bowls) == 1
    assert before.gap_m is not None
    assert after.gap_m is not None
    assert before.gap_m < after.gap_m < 1.2
    assert after.gap_sd_m < before.gap_sd_m
    assert after.hour == 3


@pytest.mark.parametrize(
    "note", [bowl(3.0, 3, "our 1"), bowl(1.0, 9, "our 1"), bowl(name="our 1", remarks=("dead",))]
)
def test_a_second_note_that_the_doubt_cannot_explain_is_asked_about(note: Any) -> None:
    play = played([bowl(1.0, 3, "our 1")])
    question = asked(play, note)
    assert question.answers == ("moved", "corrected")
    moved, corrected = question.choices
    assert isinstance(moved, BowlMoved)
    assert isinstance(corrected, Corrected)
    assert corrected.target == named("our 1")
    heads = [evolve(play, decided(play, choice)).head for choice in (moved, corrected)]
    assert heads[0].bowls[0].x_m == heads[1].bowls[0].x_m
    assert len(heads[0].bowls) == 1


def test_a_second_note_after_a_jack_move_is_weighed_with_the_moves_doubt() -> None:
    moved = played([bowl(1.0, 3, "our 1"), bowl(3.0, 6, "their 1"), JackSet(length_m=27.0)])
    play = played([bowl(0.9, 3, "our 1")], play=moved)
    assert lie(play.head, "our 1").gap_sd_m < lie(moved.head, "our 1").gap_sd_m


def test_left_and_right_turn_for_a_caller_who_faces_the_mat_but_short_stays_short() -> None:
    facing = [Stands(value="head")]
    assert lie(played([*facing, bowl(1.0, remarks=("left",))]).head, "our 1").hour == 3
    assert lie(played([*facing, bowl(1.0, remarks=("short",))]).head, "our 1").hour == 6
    across = lie(played([*facing, bowl(along_m=-1.0, across_m=0.5)]).head, "our 1")
    assert across.across_m is not None
    assert across.across_m < 0


def test_twelve_is_never_called_zero() -> None:
    assert lie(played([bowl(1.0, 0)]).head, "our 1").hour == 12


def test_with_nothing_set_no_place_within_the_widest_bounds_is_asked_about() -> None:
    for note in (bowl(3.0, 3), bowl(10.0, 12), bowl(8.0, 6)):
        assert isinstance(decide(begin(), note), Event)


def test_with_nothing_set_what_lies_beyond_the_widest_bounds_is_asked_about_once() -> None:
    # Laws CM3, 49.1 and 46.2 (quoted): a rink is at most 5.8 m wide, a green at most 40 m long; 6.1.1: the
    # mat line is 2 m or more from the rear ditch, so the front ditch is at most 38 m from it.
    aside, past = asked(begin(), bowl(12.0, 3)), asked(begin(), bowl(12.0, 12))
    assert (aside.law, aside.answers) == ("17.1.6", ("dead", "live"))
    assert (past.law, past.answers) == ("17.1.1", ("in the ditch", "live"))
    play = played([aside.choices[1], bowl(11.0, 9)])
    assert [each.state for each in play.head.bowls] == ["live", "live"]


def test_with_nothing_set_a_jack_beyond_the_longest_green_is_asked_about_once() -> None:
    # 46.2 and 9.2 (quoted): 40 m less the mat's 2 m and the jack's 2 m leave 36 m.
    assert isinstance(decide(begin(), JackSet(length_m=36.0)), Event)
    question = asked(begin(), JackSet(length_m=39.0))
    assert (question.slot, question.law) == ("yes or no", "46.2")
    play = played([JackSet(length_m=39.0, confirmed=True)])
    assert isinstance(decide(play, JackSet(length_m=39.0)), Event)


@pytest.mark.parametrize("gap_m", [-0.5, 250.0])
def test_a_distance_that_no_green_has_is_refused(gap_m: float) -> None:
    assert "distance" in spoken(refused(begin(), bowl(gap_m, 3)))


@pytest.mark.parametrize("gap_m", [math.inf, math.nan])
def test_a_figure_that_is_no_number_can_be_no_note(gap_m: float) -> None:
    with pytest.raises(ValidationError):
        bowl(gap_m, 3)


def test_an_unnamed_bowl_goes_to_the_side_that_did_not_bowl_last_ours_first() -> None:
    play = played([bowl(1.0, 3), bowl(1.5, 9), bowl(2.0, 6), bowl(2.5, 12, "ours"), bowl(3.0, 1)])
    names = [(each.side, each.number) for each in play.head.bowls]
    assert names == [("ours", 1), ("theirs", 1), ("ours", 2), ("ours", 3), ("theirs", 2)]


def test_a_session_may_begin_in_the_middle_of_an_end() -> None:
    play = played([bowl(1.0, 3, "our 3"), bowl(1.5, 9, number=2), bowl(2.0, 6)])
    names = [(each.side, each.number) for each in play.head.bowls]
    assert names == [("ours", 3), ("theirs", 2), ("ours", 4)]
    assert not play.head.jack.called
    assert play.head.jack.y_m == 27.0
