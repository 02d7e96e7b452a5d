"""A bowl told from where another bowl lies: "a foot behind their first"."""

from pathlib import Path

import pytest

from tests.session.told import Told
from voicecoach.conversation import Conversation
from voicecoach.hear.values import Heard
from voicecoach.journal.scan import read
from voicecoach.session.talk import resume

START = ("pairs, we lead, jack at twenty seven metres", "our first, a metre, six o'clock")
"""Our first lies 1.0925 m short of the jack's centre, with a bowl of 121 mm and a jack of 64 mm."""


def last(told: Told) -> tuple[float, float]:
    """Where the bowl called last lies from the jack at 27 m: right and past."""
    bowl = told.head.bowls[-1]
    assert bowl.x_m is not None
    assert bowl.y_m is not None
    return bowl.x_m, bowl.y_m - 27.0


@pytest.mark.parametrize(
    ("said", "right_m", "past_m"),
    [
        # A foot and a bowl's width are 0.4258 m; six inches and a bowl's width 0.2734 m.
        ("theirs, a foot behind our first", 0.0, -0.6667),
        ("their first is a foot past our first", 0.0, -0.6667),
        ("theirs has gone a foot past our first", 0.0, -0.6667),
        ("theirs, six inches short of our first", 0.0, -1.3659),
        ("theirs pulled up six inches in front of our first", 0.0, -1.3659),
        ("theirs, a foot to the left of our first", -0.4258, -1.0925),
        ("their first is a foot right of our last bowl", 0.4258, -1.0925),
        ("theirs, touching our first on the right", 0.121, -1.0925),
        ("theirs, resting on our lead's first, left", -0.121, -1.0925),
        ("theirs is beside our first, six inches left", -0.2734, -1.0925),
        ("theirs, a foot from our first at three o'clock", 0.4258, -1.0925),
    ],
)
def test_it_is_filed_where_that_bowl_and_the_distance_from_it_put_it(
    said: str, right_m: float, past_m: float
) -> None:
    told = Told(*START, said)
    assert told.outcomes[-1] == "noted", told.said
    assert last(told) == pytest.approx((right_m, past_m), abs=1e-4)


def test_what_was_said_is_said_back_with_the_place_from_the_jack() -> None:
    told = Told(*START, "theirs, half a metre behind our first")
    # 1.0925 - 0.5 - 0.121 = 0.4715 m between centres, 0.379 m between nearest points, straight short.
    assert told.said.startswith(
        "Their first: half a metre past our first, so forty centimetres, about six o'clock"
    )
    assert told.tell("where is their first").startswith("Their first: forty centimetres, ")


def test_the_side_it_lies_on_is_asked_for_by_that_bowls_name() -> None:
    told = Told(*START, "theirs, touching our first")
    assert told.said == "On which side of our first: what o'clock, counted round our first?"
    told.tell("three o'clock")
    assert last(told) == pytest.approx((0.121, -1.0925), abs=1e-4)


def test_beside_it_is_left_or_right_of_it_and_then_how_far() -> None:
    told = Told(*START, "theirs is beside our first")
    assert told.said == "Left or right of our first?"
    assert told.tell("left") == "How far from our first is it?"
    told.tell("touching")
    assert last(told) == pytest.approx((-0.121, -1.0925), abs=1e-4)


def test_nearer_than_a_bowl_is_no_place_and_asks_how_far() -> None:
    told = Told(*START, "theirs is nearer than our first")
    assert (told.outcomes[-1], told.said) == ("asked", "How far?")
    told.tell("half a metre")
    told.tell("three o'clock")
    assert last(told) == pytest.approx((0.5925, 0.0), abs=1e-4)


@pytest.mark.parametrize("said", ["nearly touching our first", "between our first and their first"])
def test_near_a_bowl_or_between_two_is_no_place_either(said: str) -> None:
    told = Told(*START, "theirs, a metre, three o'clock", f"our second is {said}")
    assert (told.outcomes[-1], told.said) == ("asked", "How far?")


def test_a_whole_place_from_the_jack_stays_that_where_the_bowl_touches_another() -> None:
    told = Told(*START, "theirs, a metre at five, touching our first")
    assert told.outcomes[-1] == "noted"
    # Half of 1.0925 m to the right (the sine of thirty degrees, each hour from six), and its cosine short.
    assert last(told) == pytest.approx((0.54625, -0.94613), abs=1e-4)


def test_a_line_that_names_only_the_landmark_asks_which_bowl_is_meant() -> None:
    told = Told(*START, "a foot short of our first")
    assert told.said == "Is that their first?"
    told.tell("yes")
    assert last(told) == pytest.approx((0.0, -1.5183), abs=1e-4)
    other = Told(*START, "a foot short of our first", "no, ours")
    assert (other.head.bowls[-1].side, other.head.bowls[-1].number) == ("ours", 2)


def test_behind_a_bowl_that_was_not_called_may_be_that_bowl_itself() -> None:
    assert "yes or no" in Told(*START, "a metre behind our second").said
    refused = Told(*START, "a metre short of our second")
    assert refused.said == "Our second has not been called: say where this bowl lies from the jack."


def test_a_bowl_that_lay_is_moved_to_its_landmark() -> None:
    told = Told(*START, "theirs, half a metre, three o'clock", "our first is now a foot past their first")
    bowl = told.head.bowls[0]
    # 0.5925 m to the right, and a foot and a bowl's width past.
    assert bowl.place == pytest.approx((0.5925, 27.4258))
    told.tell("take that back")
    assert told.head.bowls[0].y_m == pytest.approx(27 - 1.0925)


def test_a_correction_keeps_the_landmark_until_a_whole_place_is_said() -> None:
    told = Told(*START, "theirs, a foot behind our first", "no, two feet")
    assert last(told) == pytest.approx((0.0, -1.0925 + 0.6096 + 0.121), abs=1e-4)
    told.tell("no, short")
    assert last(told) == pytest.approx((0.0, -1.0925 - 0.6096 - 0.121), abs=1e-4)
    told.tell("no, a metre, nine o'clock")
    assert last(told) == pytest.approx((-1.0925, 0.0), abs=1e-4)


def test_the_journal_keeps_the_words_and_the_place_and_replays_to_the_same_head(tmp_path: Path) -> None:
    file = tmp_path / "today.jsonl"
    lines = (*START, "theirs, a foot behind our first", "jack moved a foot left", "no, a foot right")
    with Conversation(file) as conversation:
        for line in lines:
            conversation.hear(Heard(text=line))
        head = conversation.talk.play.head
    entries, _ = read(file)
    note, event = entries[2].note, entries[2].event
    assert note is not None
    assert note.model_dump()["landmark"] == {"side": "ours", "number": 1}
    assert event is not None
    assert event.bowls[0].y_m == pytest.approx(27 - 0.6667, abs=1e-4)
    assert resume(entries).play.head == head
