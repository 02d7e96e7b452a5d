"""The walking order: from the mat up the rink, level bodies together, left before right."""

import itertools
import random

from hypothesis import given
from hypothesis import strategies as st

from tests.describe.heads import Lay, picture_of
from voicecoach.describe import order, read_back
from voicecoach.describe.order import LEVEL_M, levels
from voicecoach.describe.values import Preferences
from voicecoach.head.values import Jack, Picture
from voicecoach.understand.values import BowlName

gaps = st.floats(min_value=0.0, max_value=6.0)
hours = st.floats(min_value=0.01, max_value=12.0)
places = st.lists(
    st.tuples(gaps, hours, st.sampled_from(["live", "live", "live", "ditch", "dead"])), max_size=18
)


def head_of(drawn: list[tuple[float, float, str]]) -> Picture:
    """A picture of bowls at drawn places, the sides taking turns."""
    lays = [
        Lay("theirs" if index % 2 else "ours", index // 2 + 1, gap, hour, state=state)  # type: ignore[arg-type] # drawn from the states
        for index, (gap, hour, state) in enumerate(drawn)
    ]
    return picture_of(lays)


@given(places)
def test_every_body_that_is_not_dead_is_in_it_exactly_once(drawn: list[tuple[float, float, str]]) -> None:
    picture = head_of(drawn)
    found = order(picture)
    living = {(lie.side, lie.number) for lie in picture.lies if lie.state != "dead"}
    named = [(name.side, name.number) for name in found if isinstance(name, BowlName)]
    assert len(named) == len(set(named)) == len(living)
    assert set(named) == living
    assert found.count("jack") == 1


@given(places)
def test_levels_go_up_the_rink_and_hold_what_is_within_thirty_centimetres_of_their_first(
    drawn: list[tuple[float, float, str]],
) -> None:
    found = levels(head_of(drawn))
    for level in found:
        up = [body.y_m for body in level]
        assert max(up) - min(up) <= LEVEL_M + 1e-6
        assert [body.x_m for body in level] == sorted(body.x_m for body in level)
    for nearer, farther in itertools.pairwise(found):
        assert min(body.y_m for body in farther) > min(body.y_m for body in nearer) + LEVEL_M
        assert min(body.y_m for body in farther) > max(body.y_m for body in nearer)


@given(places, st.randoms())
def test_it_does_not_depend_on_the_order_in_which_bowls_were_called(
    drawn: list[tuple[float, float, str]], chance: random.Random
) -> None:
    picture = head_of(drawn)
    mixed = list(picture.lies)
    chance.shuffle(mixed)
    assert order(picture.model_copy(update={"lies": tuple(mixed)})) == order(picture)


def test_a_bowl_exactly_thirty_centimetres_up_is_level_and_one_a_centimetre_more_is_not() -> None:
    # Level means centres within 0.3 m along the rink; bowls on the centre line short of the jack.
    first, level, beyond = Lay("ours", 1, 2.0, 6.0), Lay("ours", 2, 1.7, 6.0), Lay("ours", 3, 1.69, 6.0)
    assert len(levels(picture_of([first, level]))[0]) == 2
    assert len(levels(picture_of([first, beyond]))[0]) == 1


def test_level_bodies_go_left_before_right_with_the_jack_between_them() -> None:
    picture = picture_of([Lay("theirs", 1, 0.5, 3.0), Lay("ours", 1, 0.5, 9.0)])
    assert order(picture) == (BowlName(side="ours", number=1), "jack", BowlName(side="theirs", number=1))


def test_a_dead_jack_and_dead_bowls_are_not_in_it_and_ditch_touchers_are() -> None:
    lays = [Lay("ours", 1, 2.0, 12.0, state="ditch"), Lay("theirs", 1, 0.5, 6.0, state="dead")]
    picture = picture_of(lays, jack=Jack(state="dead"))
    assert order(picture) == (BowlName(side="ours", number=1),)


@given(places)
def test_the_read_back_names_the_bodies_in_that_order(drawn: list[tuple[float, float, str]]) -> None:
    picture = head_of(drawn)
    said = [sentence.about or "jack" for sentence in read_back(picture, Preferences()) if sentence.group]
    assert tuple(said) == order(picture)


@given(places)
def test_groups_hold_three_or_fewer_and_end_in_a_longer_pause(drawn: list[tuple[float, float, str]]) -> None:
    listed = [said for said in read_back(head_of(drawn), Preferences()) if said.group]
    groups = [list(group) for _, group in itertools.groupby(listed, key=lambda said: said.group)]
    assert max(map(len, groups)) <= 3
    within = [said.pause_s for group in groups for said in group[:-1]]
    assert all(group[-1].pause_s > 1.5 * max(within, default=0.0) for group in groups)
