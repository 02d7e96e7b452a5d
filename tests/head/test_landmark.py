"""A bowl called from where another bowl lies: filed so far from it, and in doubt as much as it is."""

import math
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.head.acts import asked, bowl, decided, jack, lie, named, place, played, refused, spoken
from voicecoach.head import evolve, picture
from voicecoach.head.clock import offset
from voicecoach.head.values import Game, Play
from voicecoach.understand.notes.settings import Stands
from voicecoach.understand.values import BowlMoved, Corrected, Note

APART_M = 0.121
"""Between the centres of two bowls that touch: a bowl of the default size across."""
TO_JACK_M = 0.121 / 2 + 0.064 / 2
JACK_Y_M = 27.0
FOOT_M = 0.3048


def beside(name: str, **said: Any) -> dict[str, Any]:
    return {"landmark": named(name), **said}


def start() -> Play:
    """Our first a metre short of the jack: its centre is 1.0925 m short of the jack's."""
    return played([bowl(1.0, 6.0, "our 1")])


@pytest.mark.parametrize(
    ("words", "right_m", "past_m"),
    [
        # From (0, -1.0925): a foot and a bowl's width are 0.4258 m.
        (("past",), 0.0, -0.6667),
        (("short",), 0.0, -1.5183),
        (("left",), -0.4258, -1.0925),
        (("right",), 0.4258, -1.0925),
        # Half-way between two directions: 0.4258 / sqrt(2) = 0.30109 along each.
        (("short", "left"), -0.30109, -1.39359),
        (("past", "right"), 0.30109, -0.79141),
        (("jack high", "left"), -0.4258, -1.0925),
    ],
)
def test_a_foot_from_a_bowl_is_a_foot_between_the_two(
    words: tuple[str, ...], right_m: float, past_m: float
) -> None:
    head = played([bowl(FOOT_M, name="their 1", remarks=words, **beside("our 1"))], play=start()).head
    assert place(head, "their 1") == pytest.approx((right_m, JACK_Y_M + past_m), abs=1e-5)


def test_two_distances_from_a_bowl_are_each_between_nearest_parts() -> None:
    note = bowl(along_m=-0.5, across_m=0.2, name="their 1", **beside("our 1"))
    # 1.0925 + 0.5 + 0.121 short, and 0.2 + 0.121 to the right.
    assert place(played([note], play=start()).head, "their 1") == pytest.approx((0.321, 27 - 1.7135))


def test_a_bowl_that_touches_another_lies_a_bowls_width_from_it_and_is_no_toucher() -> None:
    note = bowl(name="their 1", remarks=("touching", "right"), **beside("our 1"))
    head = played([note], play=start()).head
    assert place(head, "their 1") == pytest.approx((APART_M, 27 - 1.0925))
    assert not lie(head, "their 1").toucher


def test_an_hour_beside_a_bowls_name_is_counted_round_that_bowl() -> None:
    head = played([bowl(0.5, 3.0, "their 1", **beside("our 1"))], play=start()).head
    assert place(head, "their 1") == pytest.approx((0.5 + APART_M, 27 - 1.0925))


def test_who_stands_at_the_head_sees_left_and_right_the_other_way_round() -> None:
    at_the_head = evolve(start(), decided(start(), Stands(value="head")))
    note = bowl(FOOT_M, name="their 1", remarks=("left",), **beside("our 1"))
    assert place(played([note], play=at_the_head).head, "their 1") == pytest.approx((0.4258, 27 - 1.0925))


distances = st.floats(0.0, 3.0)
hours = st.floats(0.01, 12.0)


@given(far=st.floats(0.3, 2.0), at=hours, gap=distances, hour=hours)
def test_the_bowl_lies_where_its_landmark_and_what_was_said_from_it_add_up_to(
    far: float, at: float, gap: float, hour: float
) -> None:
    play = played([bowl(far, at, "our 1")])
    landmark = place(play.head, "our 1")
    right, past = offset(hour, gap + APART_M)
    wanted = (landmark[0] + right, landmark[1] + past)
    assume(math.dist(wanted, (0.0, JACK_Y_M)) > TO_JACK_M)
    assume(abs(wanted[0]) < 2.5)  # within the rink
    head = played([bowl(gap, hour, "their 1", **beside("our 1"))], play=play).head
    assert place(head, "their 1") == pytest.approx(wanted, abs=1e-9)
    assert place(head, "our 1") == landmark


def test_it_stays_where_it_lies_when_the_jack_moves_and_when_its_landmark_does() -> None:
    play = played([bowl(FOOT_M, name="their 1", remarks=("past",), **beside("our 1"))], play=start())
    there = place(play.head, "their 1")
    after = played([jack(0.5, 3.0)], play=play)
    assert place(after.head, "their 1") == there
    assert lie(after.head, "their 1").gap_m == pytest.approx(math.hypot(0.5, 0.6667) - TO_JACK_M)
    gone = BowlMoved(side="ours", number=1, gap_m=2.0, hour=9.0)
    assert place(played([gone], play=after).head, "their 1") == there


def test_it_goes_along_with_its_landmark_where_the_jacks_move_is_put_right() -> None:
    notes: list[Note] = [bowl(3.0, 6.0, "our 2"), jack(0.5, 3.0), bowl(1.0, 6.0, "our 1")]
    notes.append(bowl(FOOT_M, name="their 1", remarks=("past",), **beside("our 1")))
    notes.append(bowl(FOOT_M, name="their 2", remarks=("past",), **beside("our 2")))
    play = played(notes)
    right = played([Corrected(target="jack", gap_m=0.5, hour=9.0)], play=play).head
    # The jack lies a metre further left, and so does what was called from it, and what was called from that.
    assert place(right, "their 1") == pytest.approx((-0.5, 27 - 0.6667), abs=1e-5)
    assert place(right, "their 2") == place(play.head, "their 2")


def test_which_of_the_two_is_nearer_is_as_sure_as_the_little_distance_between_them() -> None:
    far = played([bowl(3.0, 6.0, "our 1")])
    touching = bowl(name="their 1", remarks=("touching", "past"), **beside("our 1"))
    holding = picture(played([touching], play=far).head).holding
    assert holding is not None
    assert (holding.side, holding.sure) == ("theirs", True)
    apart = picture(played([bowl(2.879, 6.0, "their 1")], play=far).head).holding
    assert apart is not None
    assert not apart.sure  # the same place called from the jack, three metres away


def test_the_doubt_of_the_landmark_is_in_what_was_called_from_it() -> None:
    head = played([bowl(FOOT_M, name="their 1", remarks=("past",), **beside("our 1"))], play=start()).head
    assert lie(head, "their 1").gap_sd_m > lie(head, "our 1").gap_sd_m * 0.9


def test_without_a_direction_it_is_asked_on_which_side_of_that_bowl() -> None:
    question = asked(start(), bowl(0.3, name="their 1", **beside("our 1")))
    assert question.slot == "hour"
    assert "our first" in spoken(question)


def test_beside_a_bowl_asks_left_or_right_of_it_and_then_how_far() -> None:
    note = bowl(name="their 1", remarks=("jack high",), **beside("our 1"))
    question = asked(start(), note)
    assert spoken(question) == "Left or right of our first?"
    then = asked(start(), question.choices[0])
    assert spoken(then) == "How far from our first is it?"


@pytest.mark.parametrize(
    ("notes", "landmark", "words"),
    [
        ([], "our 2", "Our second has not been called"),
        ([bowl(name="our 2", remarks=("in the ditch",))], "our 2", "Nobody knows where our second lies"),
        ([], "their 1", "A bowl can't lie beside itself"),
    ],
)
def test_a_landmark_without_a_place_is_said_so(notes: list[Note], landmark: str, words: str) -> None:
    play = played(notes, play=start())
    said = spoken(refused(play, bowl(0.3, name="their 1", remarks=("past",), **beside(landmark))))
    assert said.startswith(words)


def test_a_bowl_that_was_named_by_its_landmark_alone_is_asked_about() -> None:
    note = bowl(0.3, remarks=("past",), **beside("our 1"))
    question = asked(start(), note)
    assert spoken(question) == "Is that their first?"
    assert place(played([question.choices[0]], play=start()).head, "their 1")[1] == pytest.approx(
        27 - 1.0925 + 0.3 + APART_M
    )


def test_a_correction_says_only_what_was_wrong() -> None:
    play = played([bowl(FOOT_M, name="their 1", remarks=("past",), **beside("our 1"))], play=start())
    further = played([Corrected(gap_m=0.5)], play=play)
    assert place(further.head, "their 1") == pytest.approx((0.0, 27 - 1.0925 + 0.5 + APART_M))
    short = played([Corrected(remarks=("short",))], play=further)
    assert place(short.head, "their 1") == pytest.approx((0.0, 27 - 1.0925 - 0.5 - APART_M))
    from_the_jack = played([Corrected(gap_m=0.5, hour=3.0)], play=short)
    assert place(from_the_jack.head, "their 1") == pytest.approx((0.5 + TO_JACK_M, 27.0))


def test_a_bowl_called_before_is_put_right_from_a_landmark() -> None:
    play = played([bowl(0.5, 3.0, "their 1")], play=start())
    told = Corrected(target=named("their 1"), gap_m=FOOT_M, remarks=("past",), landmark=named("our 1"))
    assert place(played([told], play=play).head, "their 1") == pytest.approx((0.0, 27 - 0.6667), abs=1e-5)


def test_where_nothing_fits_beside_it_the_bowl_gives_way_round_its_landmark() -> None:
    # Straight past our first and against it lies our second already: it slides round our first.
    play = played([bowl(name="our 2", remarks=("touching", "past"), **beside("our 1"))], play=start())
    note = bowl(name="their 1", remarks=("touching", "right"), **beside("our 1"))
    one, two = place(played([note], play=play).head, "their 1"), place(play.head, "our 1")
    assert math.dist(one, two) == pytest.approx(APART_M)


def test_other_sizes_of_bowl_are_laid_off_in_their_own_width() -> None:
    play = played([bowl(1.0, 6.0, "our 1")], game=Game(bowl_mm=130.0))
    head = played([bowl(0.5, 12.0, "their 1", **beside("our 1"))], play=play).head
    assert math.dist(place(head, "their 1"), place(head, "our 1")) == pytest.approx(0.63)


def chain() -> Play:
    """Theirs a foot past our first, and our second against theirs."""
    notes: list[Note] = [bowl(FOOT_M, name="their 1", remarks=("past",), **beside("our 1"))]
    notes.append(bowl(name="our 2", remarks=("touching", "right"), **beside("their 1")))
    return played(notes, play=start())


def test_what_was_called_from_a_bowl_goes_along_when_that_one_is_put_right() -> None:
    play = chain()
    event = decided(play, Corrected(target=named("our 1"), gap_m=2.0))
    head = evolve(play, event).head
    # Our first lies a metre shorter, and so does everything that was called from it.
    assert place(head, "our 1") == pytest.approx((0.0, 27 - 2.0925))
    assert place(head, "their 1") == pytest.approx((0.0, 27 - 1.6667), abs=1e-5)
    assert place(head, "our 2") == pytest.approx((APART_M, 27 - 1.6667), abs=1e-5)
    assert event.remarks == ("went along",)
    again = played([Corrected(target=named("our 1"), gap_m=1.0)], play=evolve(play, event)).head
    assert place(again, "our 2") == pytest.approx(place(play.head, "our 2"))


def test_what_was_called_from_a_bowl_that_was_moved_since_stays() -> None:
    play = played([BowlMoved(side="ours", number=1, gap_m=2.0, hour=9.0)], play=chain())
    head = played([Corrected(target=named("our 1"), gap_m=1.5)], play=play).head
    assert place(head, "their 1") == place(play.head, "their 1")


def test_another_name_for_the_landmark_leaves_every_place_as_it_was() -> None:
    play = chain()
    renamed = played([Corrected(target=named("our 1"), side="theirs", number=3)], play=play)
    assert place(renamed.head, "their 1") == place(play.head, "their 1")
    right = played([Corrected(target=named("their 3"), gap_m=2.0)], play=renamed).head
    assert place(right, "their 1") == pytest.approx((0.0, 27 - 1.6667), abs=1e-5)
