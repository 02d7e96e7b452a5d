"""What lies in the way: heads with a bowler's answer, a referee that rolls the bowl, and rules."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.head.acts import bowl, jack, named, played
from tests.head.roller import nearest, rolled
from tests.head.test_pace import tally
from voicecoach.head.bodies import find
from voicecoach.head.path import Target, hands, the_bowl, the_jack, the_place
from voicecoach.head.values import Game, Head
from voicecoach.head.values.bowling import Bowling, Line
from voicecoach.head.values.looks import HandLook, Hands
from voicecoach.understand.values import Measured, Note

RIGHT_HANDER = Game(hand="right")
STEADY = Bowling(across=tally(*[0.002, -0.002] * 5), along=tally(*[0.3, -0.3] * 5))


@dataclass(frozen=True)
class Story:
    """A head, and what is said of each hand: `clear`, `tight their 1 left`, `blocked jack on`."""

    what: str
    notes: Sequence[Note]
    forehand: str
    backhand: str
    game: Game = RIGHT_HANDER
    bowling: Bowling = field(default_factory=Bowling)
    target: str = "jack"


# Each answer is one that a bowler would give from the head as drawn (common practice, no source). On the
# usual green a bowl that goes out to the right comes back from half past four, 1.5 m out, to five, 3 m out.
STORIES = [
    Story("an empty head is open on both hands", [], "clear", "clear"),
    Story("a short bowl dead in line is passed on either hand", [bowl(2, 6, "their 1")], "clear", "clear"),
    Story(
        "a bowl on the line in to the jack blocks the forehand",
        [bowl(1.5, 5, "their 1")],
        "blocked their 1 right",
        "clear",
    ),
    Story(
        "a bowl in the same place on the left blocks the backhand",
        [bowl(1.5, 7, "their 1")],
        "clear",
        "blocked their 1 left",
    ),
    Story(
        "a left-hander's forehand goes out to the left",
        [bowl(1.5, 7, "their 1")],
        "blocked their 1 left",
        "clear",
        game=Game(hand="left"),
    ),
    Story(
        "a bowl beside the line is drawn past closely",
        [bowl(2, 5, "their 1")],
        "tight their 1 right",
        "clear",
    ),
    Story("a bowl behind the jack is in nobody's way", [bowl(0.1, 12, "their 1")], "clear", "clear"),
    Story(
        "a bowl that touches the jack in front shuts both hands",
        [bowl(0, 6, "their 1")],
        "blocked their 1 left",
        "blocked their 1 right",
    ),
    Story(
        "a bowl a foot in front leaves little room on both hands",
        [bowl(0.3, 6, "their 1")],
        "tight their 1 left",
        "tight their 1 right",
    ),
    Story("a bowl jack high, a metre right, is wide of the line", [bowl(1, 3, "their 1")], "clear", "clear"),
    Story("one of our own blocks as theirs does", [bowl(1.5, 5, "our 1")], "blocked our 1 right", "clear"),
    Story(
        "a bowl that stopped at the shoulder blocks, ten metres short",
        [bowl(along_m=-9.8, across_m=1.65, name="their 1")],
        "blocked their 1 on",
        "clear",
    ),
    Story(
        "of two bowls on the line the first to be met is named",
        [bowl(0.5, 5, "their 1"), bowl(1.5, 5, "their 2")],
        "blocked their 2 right",
        "clear",
    ),
    Story(
        "with one bowl on each line there is no way in",
        [bowl(1.5, 5, "their 1"), bowl(1, 7, "their 2")],
        "blocked their 1 right",
        "blocked their 2 right",
    ),
    Story(
        "on a slow green bowls run straighter, inside that bowl",
        [bowl(1.5, 5, "their 1")],
        "clear",
        "clear",
        bowling=Bowling(pace_s=9.0),
    ),
    Story(
        "on a fast green bowls swing round that bowl",
        [bowl(1.5, 5, "their 1")],
        "clear",
        "clear",
        bowling=Bowling(pace_s=18.0),
    ),
    Story(
        "whoever bowls that straight finds room beside that bowl",
        [bowl(2, 5, "their 1")],
        "clear",
        "clear",
        bowling=Bowling(forehand=Line(angle_deg=8.0), across=STEADY.across, along=STEADY.along),
    ),
    Story(
        "a bowl in the ditch is no obstacle",
        [bowl(1, 5, "their 1", remarks=("in the ditch", "toucher"))],
        "clear",
        "clear",
    ),
    Story(
        "the jack before their bowl is in the way of a shot at it",
        [bowl(0.3, 11, "their 1")],
        "blocked jack left",
        "clear",
        target="their 1",
    ),
    Story(
        "a jack that moved left takes the lines with it",
        [bowl(1.5, 7, "their 1"), jack(1.5, 9)],
        "tight their 1 left",
        "clear",
    ),
    Story(
        "a metre past the jack the bowl swings in half a metre behind it",
        [bowl(2, 12, "their 1")],
        "clear",
        "clear",
        target="a metre past",
    ),
    Story(
        "a bowl that lies where the bowl is to stop blocks both hands",
        [bowl(1, 12, "their 1")],
        "blocked their 1 on",
        "blocked their 1 on",
        target="a metre past",
    ),
]


def looked(head: Head, bowling: Bowling | None = None, target: str = "jack") -> Hands:
    return hands(bowls_so(head, bowling or Bowling()), _target(head, target))


def bowls_so(head: Head, bowling: Bowling) -> Head:
    """The same head, with a player who bowls so."""
    return head.model_copy(update={"game": head.game.model_copy(update={"bowling": bowling})})


def _target(head: Head, what: str) -> Target:
    if what == "jack":
        found = the_jack(head)
    elif what == "a metre past":
        found = the_place(head, 0.0, 1.0 + (head.game.bowl_mm + head.game.jack_mm) / 2000)
    else:
        lying = find(head, named(what))
        assert lying is not None
        found = the_bowl(head, lying)
    assert found is not None
    return found


def on(found: Hands, hand: str) -> HandLook:
    return next(look for look in found.hands if look.hand == hand)


def words(look: HandLook) -> str:
    if look.by is None:
        return look.state
    name = (
        look.by if look.by == "jack" else f"{'our' if look.by.side == 'ours' else 'their'} {look.by.number}"
    )
    return f"{look.state} {name} {look.aside}"


@pytest.mark.parametrize("story", STORIES, ids=lambda story: story.what)
def test_it_gives_the_answer_a_bowler_would_give(story: Story) -> None:
    found = looked(played(story.notes, story.game).head, story.bowling, story.target)
    assert words(on(found, "forehand")) == story.forehand
    assert words(on(found, "backhand")) == story.backhand
    for look in found.hands:
        assert (look.by is None) == (look.state == "clear")
        assert (look.near is None) == (look.short_m is None) == (look.clearance_m is None)
        assert look.state != "blocked" or (look.clearance_m or 0.0) < 0


def test_how_far_short_is_between_nearest_parts_along_the_line() -> None:
    found = on(looked(played([bowl(1.5, 5, "their 1")]).head), "forehand")
    centre = (1.5 + 0.0925) * math.cos(math.radians(30))
    assert found.short_m == pytest.approx(centre - 0.0925)
    at_the_shoulder = played([bowl(along_m=-9.8, across_m=1.65, name="their 1")]).head
    assert on(looked(at_the_shoulder), "forehand").short_m == pytest.approx(9.8)


def test_the_most_open_hand_comes_first() -> None:
    assert looked(played([bowl(1.5, 5, "their 1")]).head).hands[0].hand == "backhand"
    assert looked(played([bowl(1.5, 7, "their 1")]).head).hands[0].hand == "forehand"
    both = [bowl(2, 5, "their 1"), bowl(1.5, 7, "their 2")]
    assert [look.state for look in looked(played(both).head).hands] == ["tight", "blocked"]


def test_how_many_more_lie_in_the_way_is_counted() -> None:
    two = played([bowl(0.5, 5, "their 1"), bowl(1.5, 5, "their 2"), bowl(2, 12, "our 1")]).head
    assert on(looked(two), "forehand").others == 1
    assert on(looked(two), "backhand").others == 0


def test_what_was_judged_by_eye_is_likely_and_what_a_tape_gave_is_sure() -> None:
    by_eye = played([bowl(1.0, 5, "their 1")])
    seen = on(looked(by_eye.head), "forehand")
    assert seen.state == "blocked"
    assert 0.2 < seen.sure < 0.9
    tape = Measured(side="theirs", number=1, gap_m=1.0, hour=5.0)
    taped = on(looked(played([tape], play=by_eye).head), "forehand")
    assert (taped.state, taped.sure) == ("blocked", 1.0)


def test_how_sure_it_is_agrees_with_places_drawn_anew() -> None:
    # A second opinion on the sample: the same doubt drawn by another generator, each bowl rolled past by
    # small steps. The hour is uniform over its width, the gap log-normal, as the head has it.
    found = on(looked(played([bowl(2.0, 5, "their 1")]).head), "forehand")
    track = rolled(27j, 10.0, True, 0.0925, steps=4_000)
    draws = np.random.default_rng(7)
    sight = math.hypot(math.sin(math.radians(150)), math.cos(math.radians(150)) * 4 / 3)
    gaps = 2.0 * np.exp(0.15 * sight * draws.standard_normal(1_500)) + 0.0925
    hours = np.radians(30 * (5 + draws.uniform(-0.5, 0.5, 1_500)))
    near = [
        nearest(track, complex(g * math.sin(h), 27 + g * math.cos(h)))
        for g, h in zip(gaps, hours, strict=True)
    ]
    runs = 1 - gaps / 27
    tight = np.mean((np.array(near) >= 0.121) & (np.array(near) < 0.121 + 0.3 * runs))
    assert found.state == "tight"
    assert found.sure == pytest.approx(float(tight), abs=0.05)


def test_the_doubt_of_a_target_counts_too() -> None:
    notes = [bowl(1.5, 5, "their 1"), bowl(1.0, 10, "their 2")]
    head = played(notes).head
    sure = on(looked(head, target="their 2"), "forehand").sure
    tape = Measured(side="theirs", number=2, gap_m=1.0, hour=10.0)
    known = on(looked(played([*notes, tape]).head, target="their 2"), "forehand").sure
    assert known != sure


def test_who_has_named_a_line_is_not_answered_roughly() -> None:
    head = played([], RIGHT_HANDER).head
    assert looked(head).roughly
    assert looked(head, Bowling(pace_s=13.0)).roughly
    named_both = Bowling(forehand=Line(angle_deg=9.0), backhand=Line(angle_deg=11.0))
    found = looked(head, named_both)
    assert not found.roughly
    assert [on(found, hand).angle_deg for hand in ("forehand", "backhand")] == [
        pytest.approx(9.0),
        pytest.approx(11.0),
    ]
    assert not found.right_hander
    assert looked(played([]).head).right_hander


CELLS = st.tuples(st.integers(-5, 5), st.integers(-17, 2), st.booleans())
FOR_THE_CLEAR = {"clearance_m", "near", "short_m", "aside"}
"""What may name another body as the nearest where the line is clear."""

PLACES = st.lists(CELLS, min_size=1, max_size=7, unique_by=lambda cell: cell[:2]).map(
    lambda cells: [(0.6 * right + 0.13, 0.7 * past - 0.11, ours) for right, past, ours in cells]
)
"""Bowls that lie apart: right of the jack and past it, metres, and whether they are ours; too few of ours to
show a player's own spread."""


def _laid(places: Sequence[tuple[float, float, bool]], mirrored: bool = False, **game: Any) -> Head:
    notes = []
    count = {True: 0, False: 0}
    for across, along, ours in places:
        count[ours] += 1
        name = f"{'our' if ours else 'their'} {count[ours]}"
        taped = {"along_m": along, "across_m": -across if mirrored else across}
        notes.append(bowl(name=name, **taped))
    return played(notes, Game(**{"widest_m": 100.0, "farthest_m": 100.0, **game})).head


@given(places=PLACES, angle_deg=st.floats(4, 18))
@settings(deadline=None, max_examples=60)
def test_the_state_is_what_a_referee_finds_who_rolls_the_bowl(
    places: list[tuple[float, float, bool]], angle_deg: float
) -> None:
    head = _laid(places)
    both = Line(angle_deg=angle_deg)
    found = looked(head, Bowling(forehand=both, backhand=both))
    for hand, right in (("forehand", True), ("backhand", False)):
        track = rolled(27j, angle_deg, right, 0.0925, steps=8_000)
        assert on(found, hand).state == _refereed(track, head)


def _refereed(track: Any, head: Head) -> str:
    """Clear, tight or blocked, by going along the track; heads too near a bound to tell are passed over."""
    states = {"clear"}
    for each in head.bowls:
        assert each.x_m is not None
        assert each.y_m is not None
        body = complex(each.x_m, each.y_m)
        apart = np.abs(track - body)
        gap = float(apart.min()) - 0.121
        there = track[int(apart.argmin())]
        spread = 0.3 * (1 - abs(there - 27j) / 27)
        assume(abs(gap) > 0.005)
        assume(abs(gap - spread) > 0.005)
        beyond = abs(there - track[-1]) < 0.01
        states.add("blocked" if gap < 0 else "tight" if gap < spread and not beyond else "clear")
    return next(state for state in ("blocked", "tight", "clear") if state in states)


@given(places=PLACES)
@settings(deadline=None, max_examples=40)
def test_mirroring_the_head_swaps_the_hands(places: list[tuple[float, float, bool]]) -> None:
    straight, mirrored = looked(_laid(places)), looked(_laid(places, mirrored=True))
    for hand, other in (("forehand", "backhand"), ("backhand", "forehand")):
        one, two = on(straight, hand), on(mirrored, other)
        assert (one.state, one.by, one.others) == (two.state, two.by, two.others)
        assert one.clearance_m == (
            None if two.clearance_m is None else pytest.approx(two.clearance_m, abs=1e-6)
        )
        assert one.sure == pytest.approx(two.sure, abs=0.06), "the draws are not mirrored with the head"


@given(places=PLACES)
@settings(deadline=None, max_examples=30)
def test_a_left_handers_hands_are_a_right_handers_swapped(places: list[tuple[float, float, bool]]) -> None:
    right, left = looked(_laid(places, hand="right")), looked(_laid(places, hand="left"))
    for hand, other in (("forehand", "backhand"), ("backhand", "forehand")):
        assert on(right, hand).model_dump(exclude={"hand"}) == on(left, other).model_dump(exclude={"hand"})


@given(places=PLACES, far=st.sampled_from([(9.0, -10.0), (-9.0, -8.0), (0.0, 6.0), (7.0, 0.5)]))
@settings(deadline=None, max_examples=40)
def test_a_body_far_from_both_lines_changes_nothing(
    places: list[tuple[float, float, bool]], far: tuple[float, float]
) -> None:
    before = looked(_laid(places))
    after = looked(_laid([*places, (*far, False)]))
    for hand in ("forehand", "backhand"):
        one, two = on(before, hand), on(after, hand)
        assert one.model_dump(exclude=FOR_THE_CLEAR) == two.model_dump(exclude=FOR_THE_CLEAR)
        assert one.state == "clear" or (one.near, one.clearance_m) == (two.near, two.clearance_m)


@given(along=st.floats(-14.0, -1.5), right=st.booleans(), angle_deg=st.floats(5.0, 15.0))
@settings(deadline=None, max_examples=30)
def test_a_body_moved_across_the_line_goes_from_clear_to_tight_to_blocked_and_back(
    along: float, right: bool, angle_deg: float
) -> None:
    line = Line(angle_deg=angle_deg)
    track = rolled(27j, angle_deg, right, 0.0925, steps=8_000)
    middle = float(track[np.abs(track.imag - (27 + along)).argmin()].real)
    seen: list[str] = []
    for off in np.linspace(-0.8, 0.8, 81):
        head = _at(middle + float(off), along)
        state = on(
            looked(head, Bowling(forehand=line, backhand=line)), "forehand" if right else "backhand"
        ).state
        if not seen or seen[-1] != state:
            seen.append(state)
    assert seen == ["clear", "tight", "blocked", "tight", "clear"]


def _at(across_m: float, along_m: float) -> Head:
    """A head with their first just there, as a tape would have it."""
    head = played([bowl(along_m=-5.0, across_m=0.0, name="their 1")]).head
    laid = head.bowls[0].model_copy(update={"x_m": across_m, "y_m": 27.0 + along_m})
    return head.model_copy(update={"bowls": (laid,)})
