"""The jack in the ditch, its moves put right, touchers and ditches: told as a director tells them."""

import pytest

from tests.session.told import Told

GREEN = ("green 36 metres long, mat line at two metres", "jack at twenty seven")
"""The ditch's edge is then 34 m from the mat line."""
TWO_FEET_M = 0.6096  # International Yard and Pound agreement, 1959: a foot is 0.3048 m.


@pytest.mark.parametrize(("side", "x_m"), [("right", TWO_FEET_M), ("left", -TWO_FEET_M)])
def test_a_jack_in_the_ditch_to_a_side_lies_on_the_ditchs_edge_so_far_aside(side: str, x_m: float) -> None:
    told = Told(*GREEN, f"jack in the ditch, two feet {side}")
    assert told.head.jack.place == pytest.approx((x_m, 34.0))
    where = told.tell("where's the jack")
    assert where == f"The jack, in the ditch: thirty four metres from the mat line, two feet {side}."


def test_while_the_ditch_has_no_place_the_jack_is_in_it_all_the_same() -> None:
    told = Told("jack at twenty seven", "jack in the ditch two feet right")
    assert told.head.jack.state == "ditch"
    assert told.head.jack.place == pytest.approx((TWO_FEET_M, 32.5))
    assert "the place of the ditch is not set" in told.said.lower()


def test_how_far_back_it_went_is_put_right_afterwards() -> None:
    told = Told("jack at twenty seven", "jack in the ditch", "no, seven metres")
    assert told.head.jack.state == "ditch"
    assert told.head.jack.place == pytest.approx((0.0, 34.0))


def test_the_jacks_move_said_again_after_a_no_replaces_the_move() -> None:
    told = Told("jack at twenty seven", "jack moved a foot left", "no, jack moved a foot right")
    assert told.head.jack.place == pytest.approx((0.3048, 27.0))
    assert len(told.head.jack_moves) == 1
    assert told.said == "Now the jack: one foot right."


def test_a_first_move_is_taken_after_a_no_too() -> None:
    told = Told("jack at twenty seven", "our first, a metre, two o'clock", "no, jack moved a foot right")
    assert told.head.jack.place == pytest.approx((0.3048, 27.0))


def test_a_dead_jack_was_in_the_ditch_after_all() -> None:
    told = Told(*GREEN, "jack dead", "no, in the ditch")
    assert told.head.jack.state == "ditch"
    assert told.head.jack.place == pytest.approx((0.0, 34.0))


def test_a_ditched_bowl_that_is_a_toucher_after_all_lives_in_the_ditch() -> None:
    # Laws CM3, 14.1 (read) and 17.1.1 (quoted): a toucher in the ditch is live, any other bowl there is dead.
    told = Told(*GREEN, "our first in the ditch", "our first is a toucher")
    assert (told.lie().state, told.lie().toucher, told.lie().why_dead) == ("ditch", True, None)
    assert told.lie().gap_m == pytest.approx(7.0 - 0.032, abs=0.01)


def test_a_ditched_toucher_that_is_none_is_dead_and_holds_nothing() -> None:
    told = Told(*GREEN, "our first, a toucher, in the ditch", "our first is not a toucher")
    assert (told.lie().state, told.lie().toucher) == ("dead", False)
    assert told.lie().why_dead == "in the ditch, not a toucher"
    assert told.tell("who holds") == "No live bowl: nobody holds."


def test_without_a_name_the_last_bowl_is_the_toucher_also_in_the_ditch() -> None:
    told = Told(*GREEN, "their first, a metre, six o'clock", "our first in the ditch", "it's a toucher")
    assert (told.lie(1).state, told.lie(1).toucher, told.lie(0).toucher) == ("ditch", True, False)


def test_a_jack_in_the_ditch_makes_no_toucher_without_a_word() -> None:
    # Laws CM3, 14.1 (read): touched in its original course; 38.5.3 (quoted): a bowl that enters the ditch
    # and moves the jack there is a non-toucher. That the touch must be on the green is derived from both.
    told = Told(*GREEN, "jack in the ditch", "our first touching the jack")
    assert told.outcomes[-1] == "asked"
    assert told.said.startswith("A jack in the ditch makes no toucher")
    told.tell("dead")
    assert (told.lie().state, told.lie().toucher) == ("dead", False)


def test_a_jack_called_dead_lies_where_it_is_put_right_to() -> None:
    told = Told(*GREEN, "jack dead", "no, a foot left")
    assert told.head.jack.place == pytest.approx((-0.3048, 27.0))


def test_a_toucher_in_the_ditch_that_is_called_live_stays_in_the_ditch() -> None:
    told = Told(*GREEN, "our first in the ditch, a toucher", "our first is live")
    assert told.lie().state == "ditch"


@pytest.mark.parametrize("between", [(), ("our first, a metre, six o'clock",)])
def test_a_jacks_length_said_after_a_no_is_its_length(between: tuple[str, ...]) -> None:
    told = Told(*GREEN, "jack moved a foot left", *between, "no, jack moved to twenty eight metres")
    assert told.head.jack.place is not None
    assert told.head.jack.place.y_m == pytest.approx(28.0)
