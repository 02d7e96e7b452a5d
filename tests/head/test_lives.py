"""The life of a bowl: live, toucher, in the ditch, dead and why, moved, scattered."""

import math
from typing import Any

import pytest

from tests.head.acts import asked, bowl, decided, jack, lie, named, place, played, refused, spoken
from voicecoach.head import begin, decide, evolve, next_up, picture
from voicecoach.head.bounds import bowl_fate
from voicecoach.head.values import Event, Game, Play, Point
from voicecoach.understand.values import BowlMoved

RINK = Game(rink_m=5.0, green_m=34.0, mat_m=2.0)


def moved(name: str, gap_m: float | None = None, hour: float | None = None, **said: Any) -> BowlMoved:
    whose = named(name)
    return BowlMoved(side=whose.side, number=whose.number, gap_m=gap_m, hour=hour, **said)


def of(play: Play, name: str) -> tuple[str, str | None]:
    found = lie(play.head, name)
    return found.state, found.why_dead


def test_a_bowl_in_the_ditch_lives_only_as_a_toucher() -> None:
    # Laws CM3, 17.1.1 (quoted) and 14.1 (read).
    event = decided(begin(), bowl(name="our 1", remarks=("in the ditch",)))
    assert event.law == "17.1.1"
    dead = evolve(begin(), event)
    assert of(dead, "our 1") == ("dead", "in the ditch, not a toucher")
    assert lie(dead.head, "our 1").x_m is None
    live = played([bowl(1.0, 1, "our 1", remarks=("toucher", "in the ditch"))])
    assert of(live, "our 1") == ("ditch", None)
    assert lie(live.head, "our 1").gap_m == pytest.approx(1.0)


def test_a_toucher_in_the_ditch_lies_straight_past_the_jack_where_nothing_else_was_said() -> None:
    play = played([bowl(name="our 1", remarks=("toucher", "in the ditch"))], RINK)
    assert place(play.head, "our 1") == pytest.approx((0.0, 32.0605))
    assert asked(begin(), bowl(name="our 1", remarks=("toucher", "in the ditch"))).slot == "gap"


@pytest.mark.parametrize(("nearest_m", "lives"), [(13.99, False), (14.0, True)])
def test_a_bowl_dies_under_fourteen_metres_and_lives_at_fourteen(nearest_m: float, lives: bool) -> None:
    # Laws CM3, 17.1.3 (quoted): centre of the mat line to the nearest point of the bowl.
    assert (bowl_fate(Game(), Point(0.0, nearest_m + 0.0605), moved=False) is None) == lives
    note = bowl(27.0 - nearest_m - 0.121 - 0.032, 6)
    if lives:
        assert isinstance(decide(begin(), note), Event)
        return
    question = asked(begin(), note)
    assert (question.law, question.answers) == ("17.1.3", ("dead", "live"))
    dead, live = (evolve(begin(), decided(begin(), choice)) for choice in question.choices)
    assert of(dead, "our 1") == ("dead", "under fourteen metres from the mat line")
    assert of(live, "our 1") == ("live", None)


def test_a_bowl_outside_the_rink_is_asked_about_once_the_rink_is_set() -> None:
    # Laws CM3, 17.1.6 (quoted).
    assert isinstance(decide(begin(), bowl(3.0, 3)), Event)
    question = asked(begin(RINK), bowl(3.0, 3))
    assert question.law == "17.1.6"
    dead = evolve(begin(RINK), decided(begin(RINK), question.choices[0]))
    assert of(dead, "our 1") == ("dead", "out of the rink")
    assert isinstance(decide(begin(RINK), bowl(2.4, 3)), Event), "a bowl on the line is not wholly outside"


def test_a_bowl_past_the_edge_of_the_ditch_is_asked_about_once_green_and_mat_are_set() -> None:
    assert isinstance(decide(begin(), bowl(6.0, 12)), Event)
    question = asked(begin(RINK), bowl(6.0, 12))
    assert question.answers == ("in the ditch", "live")


def test_a_bowl_knocked_out_of_the_rink_is_dead() -> None:
    # Laws CM3, 17.1.4 (quoted).
    play = played([bowl(1.0, 3, "our 1")])
    event = decided(play, moved("our 1", remarks=("out of the rink",)))
    assert event.law == "17.1.4"
    assert of(evolve(play, event), "our 1") == ("dead", "knocked out of the rink")
    lying = played([bowl(1.0, 3, "our 1")], RINK)
    assert asked(lying, moved("our 1", 4.0, 3)).law == "17.1.4"


def test_a_bowl_moved_lies_at_its_new_place_or_so_far_from_the_old_one() -> None:
    play = played([bowl(1.0, 3, "our 1"), bowl(2.0, 9, "their 1")])
    there = played([moved("our 1", 0.5, 12)], play=play).head
    assert lie(there, "our 1").gap_m == pytest.approx(0.5)
    assert lie(there, "our 1").hour == 12
    by = played([moved("our 1", 0.5, 12, by=True)], play=play).head
    old = place(play.head, "our 1")
    assert place(by, "our 1") == pytest.approx((old[0], old[1] + 0.5))
    assert lie(by, "our 1").gap_sd_m > lie(play.head, "our 1").gap_sd_m
    assert next_up(by) == named("our 2"), "a bowl that moved was not delivered"


def test_a_bowl_pushed_into_another_lies_against_it() -> None:
    play = played([bowl(1.0, 3, "our 1"), bowl(1.0, 1, "their 1"), moved("our 1", 0.93, 12, by=True)])
    assert math.dist(place(play.head, "our 1"), place(play.head, "their 1")) >= 0.121 - 1e-9


@pytest.mark.parametrize(
    ("note", "slot"),
    [
        (BowlMoved(gap_m=0.5, hour=3.0), "number"),
        (BowlMoved(number=1, gap_m=0.5, hour=3.0), "side"),
        (moved("our 1"), "gap"),
        (moved("our 1", 0.5, by=True), "hour"),
    ],
)
def test_a_move_asks_for_what_it_lacks(note: BowlMoved, slot: str) -> None:
    play = played([bowl(1.0, 3, "our 1"), bowl(2.0, 9, "their 1")])
    question = asked(play, note)
    assert question.slot == slot
    for choice in question.choices:
        assert isinstance(decide(play, choice), Event)


def test_a_bowl_that_only_one_side_has_needs_no_side() -> None:
    play = played([bowl(1.0, 3, "our 1"), bowl(2.0, 9, "our 2"), BowlMoved(number=2, gap_m=0.5, hour=12.0)])
    assert lie(play.head, "our 2").hour == 12


def test_a_bowl_first_heard_of_when_it_moved_is_filed_where_it_lies() -> None:
    assert lie(played([moved("their 3", 0.5, 1)]).head, "their 3").gap_m == pytest.approx(0.5)
    assert "has not been called" in spoken(refused(begin(), moved("their 3", 0.5, 1, by=True)))


def test_a_bowl_that_falls_against_the_jack_before_the_next_one_is_a_toucher() -> None:
    # Laws CM3, 14.1 and 15.1 (read).
    falls = played([bowl(0.1, 9, "our 1"), moved("our 1", None, 9, remarks=("touching",))])
    assert lie(falls.head, "our 1").toucher
    late = played([bowl(0.1, 9, "our 1"), bowl(1.0, 3, "their 1"), moved("our 1", 0.0, 9)])
    assert not lie(late.head, "our 1").toucher


def test_a_toucher_named_after_the_next_bowl_rested_is_asked_about() -> None:
    # Laws CM3, 15.1 to 15.3; CM1 25 (read): marked or nominated before the next bowl rests.
    first = played([bowl(0.3, 9, "our 1")])
    assert lie(played([moved("our 1", remarks=("toucher",))], play=first).head, "our 1").toucher
    later = played([bowl(1.0, 3, "their 1")], play=first)
    question = asked(later, moved("our 1", remarks=("toucher",)))
    assert (question.law, question.slot) == ("15.1", "yes or no")
    agreed = moved("our 1", remarks=("toucher",), confirmed=True)
    assert lie(played([agreed], play=later).head, "our 1").toucher
    unmarked = played([agreed, moved("our 1", remarks=("not a toucher",))], play=later)
    assert not lie(unmarked.head, "our 1").toucher


def test_a_toucher_knocked_into_the_ditch_stays_live_with_its_place() -> None:
    play = played([bowl(0.0, 3, "our 1"), moved("our 1", remarks=("in the ditch",))], RINK)
    assert of(play, "our 1") == ("ditch", None)
    assert place(play.head, "our 1")[1] == pytest.approx(32.0605)


def test_a_scattered_head_is_cleared_and_called_again_in_the_same_order() -> None:
    start = [bowl(1.0, 3), bowl(2.0, 9), bowl(3.0, 6), bowl(name="their 2", remarks=("dead",))]
    play = played([*start, BowlMoved(scattered=True)])
    assert [(each.side, each.state) for each in play.head.bowls] == [("theirs", "dead")]
    assert next_up(play.head) == named("our 1")
    again = played([bowl(0.5, 12), bowl(0.7, 1), bowl(2.0, 2, "ours")], play=play)
    assert {(each.side, each.number) for each in again.head.bowls} == {
        ("ours", 1),
        ("theirs", 1),
        ("ours", 2),
        ("theirs", 2),
    }
    assert next_up(again.head) == named("our 3"), "whose turn it is has not changed"
    assert picture(again.head).holding is not None
    assert "nothing to clear" in spoken(refused(begin(), BowlMoved(scattered=True)))


def test_a_ninth_bowl_in_a_singles_end_is_a_question_that_names_the_choice() -> None:
    # Singles: 4 each, 8 in one end (derived).
    play = played(
        [bowl(0.5 + 0.4 * count, 3 * (count % 4) or 12) for count in range(8)], Game(format="singles")
    )
    question = asked(play, bowl(0.3, 5))
    assert question.slot == "yes or no"
    assert "four bowls a side" in spoken(question)
    taken = played([bowl(0.3, 5, confirmed=True)], play=play)
    assert len(taken.head.bowls) == 9


def test_a_fifth_bowl_of_a_side_in_singles_asks_whose_it_is_while_the_other_side_has_bowls_left() -> None:
    ours = [bowl(0.5 + 0.4 * count, 3, "ours") for count in range(4)]
    play = played(ours, Game(format="singles"))
    question = asked(play, bowl(0.3, 9, "ours"))
    assert (question.slot, question.answers) == ("side", ("theirs", "ours"))
    for choice, side in zip(question.choices, ("theirs", "ours"), strict=True):
        assert decided(play, choice).last_side == side
    assert next_up(play.head) == named("their 1")


@pytest.mark.parametrize(
    ("game", "a_side"),
    [
        ({"format": "singles"}, 4),
        ({"format": "pairs"}, 8),
        ({"format": "triples"}, 9),
        ({"format": "fours"}, 8),
        ({"format": "singles", "bowls_each": 2}, 2),
        ({"format": "triples", "bowls_each": 2}, 6),
    ],
)
def test_the_bowls_to_come_are_a_format_s_players_times_bowls_less_those_called(
    game: dict[str, Any], a_side: int
) -> None:
    # Singles one player of four bowls, pairs two of four, triples three of three, fours four of two
    # (from memory; the products are derived).
    play = played([bowl(0.5, 3, "ours"), bowl(0.9, 9, "ours")], Game(**game))
    assert picture(play.head).to_come == (a_side - 2, a_side)
    assert picture(played([bowl(0.5, 3, "ours")]).head).to_come is None


def test_with_no_format_nine_bowls_a_side_are_taken_in_any_order_and_a_tenth_is_asked_about() -> None:
    play = played(
        [bowl(0.4 + 0.3 * number, number, f"our {number}") for number in (9, 2, 5, 1, 8, 3, 4, 7, 6)]
    )
    assert len(play.head.bowls) == 9
    assert asked(play, bowl(5.0, 3, "our 10")).slot == "yes or no"


def test_a_jack_move_leaves_every_bowl_where_it_lay() -> None:
    play = played([bowl(1.0, 3), bowl(2.0, 9)])
    before = [(each.x_m, each.y_m) for each in play.head.bowls]
    after = played([jack(0.4, 1)], play=play)
    assert [(each.x_m, each.y_m) for each in after.head.bowls] == before
    assert all(not each.as_called for each in after.head.bowls)
