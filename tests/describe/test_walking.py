"""The walk: where to halt, what is beside, what is in the way next, and how it ends."""

import json
import random
import re
from itertools import pairwise
from typing import Literal

import pytest

from tests.describe.heads import Lay, picture_of, random_lays
from voicecoach.describe import Preferences, Walking, order, stop_json, stops, walk
from voicecoach.describe.values import Beside
from voicecoach.head.values import Game, Jack, Picture
from voicecoach.understand.values import BowlName, Walk

Step = Literal["start", "next", "back", "again", "where", "here", "turn", "stop"]
GAME = Game(green_m=36.0, mat_m=2.0)
LAYS = [Lay("theirs", 1, 2.0, 6.0, "m"), Lay("ours", 1, 0.9, 9.0), Lay("ours", 2, 1.5, 2.0, "m")]
HEAD = picture_of(LAYS, game=GAME)
PREFS = Preferences(short_cautions=True)


def walked(*steps: Step, picture: Picture = HEAD, prefs: Preferences = PREFS) -> list[list[str]]:
    """What is said at each step."""
    walking: Walking | None = None
    said = []
    for step in steps:
        walking, sentences = walk(Walk(step=step), walking, picture, prefs)
        said.append([sentence.text for sentence in sentences])
    return said


def test_the_stops_are_the_walking_order_level_by_level() -> None:
    chance = random.Random(2)
    for _ in range(100):
        picture = picture_of(random_lays(chance, chance.randint(0, 16), as_called=True))
        names = [
            BowlName(side=item.side, number=item.number) if isinstance(item, Beside) else "jack"
            for stop in stops(picture)
            for item in stop.level
        ]
        assert tuple(names) == order(picture)


def test_each_stop_is_as_far_ahead_as_the_one_before_it_says() -> None:
    halts = stops(HEAD)
    for here, after in pairwise(halts):
        assert here.ahead_m == pytest.approx(after.at_m - here.at_m)
        assert after.at_m - here.at_m > 0.3
    assert halts[-1].ahead_m is None


def test_a_stop_is_one_json_object_of_the_documented_shape() -> None:
    # Their first lies 2 m short in line, its centre 2.0925 m before the jack at 27 m (derived).
    first, second = (json.loads(json.dumps(stop_json(stop))) for stop in stops(HEAD)[:2])
    assert first == {
        "at_m": pytest.approx(24.9075, abs=0.001),
        "ahead_m": pytest.approx(2.0925, abs=0.001),
        "level": [{"side": "theirs", "number": 1, "aside_m": 0.0, "on": None}],
    }
    assert second["level"] == [{"side": "ours", "number": 1, "aside_m": 0.993, "on": "left"}, "jack"]


def test_a_body_within_half_a_metre_of_the_path_is_warned_about_before_it_is_reached() -> None:
    chance = random.Random(3)
    for _ in range(50):
        picture = picture_of(random_lays(chance, chance.randint(1, 16), as_called=True))
        halts = stops(picture)
        on: list[Step] = ["next"] * (len(halts) - 1)
        said = walked("start", *on, picture=picture)
        for halt, before in zip(halts, said, strict=True):
            # A bowl is at most 131 mm across (law 52, quoted): its edge is nearer than its centre.
            near = any(item.aside_m - 0.121 / 2 <= 0.5 for item in halt.level if isinstance(item, Beside))
            jack = any(not isinstance(item, Beside) for item in halt.level)
            assert any(text.startswith("Careful, in ") for text in before) == (near or jack)


def test_a_walk_begins_with_the_cautions_and_the_distance_of_ditch_and_bank() -> None:
    (said,) = walked("start")
    assert said[0] == "This describes, never guides."
    assert "Three stops." in said
    assert "The ditch is thirty four metres ahead, the bank beyond it." in said
    assert said[-1] == "Careful, in twenty five metres: their first, on the path."
    (unknown,) = walked("start", picture=picture_of(LAYS))
    assert "How far the ditch is was not set: mind the edge." in unknown


def test_at_each_stop_what_is_level_is_said_and_what_comes_next() -> None:
    _, first, second, last = walked("start", "next", "next", "next")
    assert first == [
        "Their first, on the path.",
        "Careful, in two metres ten: our first, one metre left; the jack, on the path.",
    ]
    assert second[:2] == ["Our first, one metre left.", "The jack, on the path."]
    assert last == [
        "Our second, one metre forty right.",
        "This is the far edge of the head.",
        "The ditch is six metres ahead, the bank beyond it.",
    ]


def test_here_reads_only_what_is_level_with_the_stop() -> None:
    assert walked("start", "next", "next", "here")[-1] == [
        "Our first, one metre left.",
        "The jack, on the path.",
    ]


def test_where_says_which_stop_it_is_and_how_far_from_the_mat_in_metres_or_paces() -> None:
    assert walked("start", "next", "where")[-1][0] == "Stop one of three, twenty five metres from the mat."
    paces = walked("start", "next", "where", prefs=PREFS.model_copy(update={"pace_m": 0.7}))
    assert paces[-1][0] == "Stop one of three, thirty five and a half paces from the mat."
    assert "in three paces" in paces[-1][-1]


def test_back_again_and_the_mat() -> None:
    said = walked("start", "next", "again", "next", "back", "back", "back")
    assert said[1] == said[2] == said[4]
    assert said[5][0] == "You stand at the mat."
    assert said[6] == ["You stand at the mat."], "there is nothing before the mat"


def test_turned_round_left_and_right_are_the_listeners_and_the_way_leads_back() -> None:
    *_, turned, again = walked("start", "next", "next", "turn", "again")
    assert turned[0] == "You face the mat: left and right are yours, the clock is the mat's."
    assert turned[1].startswith("Careful, in two metres ten: their first")
    assert again[0] == "Our first, one metre right."
    assert walked("start", "next", "turn", "turn")[-1][0].startswith("You face up the rink")


def test_coming_back_ends_at_the_mat() -> None:
    said = walked("start", "next", "turn", "next", "next")
    assert said[2][-1] == "The mat is twenty five metres ahead."
    assert said[3] == ["You stand at the mat."]
    assert said[4][0] == "The walk is over."


@pytest.mark.parametrize("steps", [("start", "stop"), ("start", "next", "next", "next", "next")])
def test_at_its_end_the_director_is_reminded_to_see_the_player_safe_before_gathering(
    steps: tuple[Step, ...],
) -> None:
    assert walked(*steps)[-1] == [
        "The walk is over.",
        "Director: see the player to a safe place off the path before you gather bowls.",
        "Two are ours.",
    ]


def test_none_of_ours_to_gather_is_said_in_words_and_not_as_nought() -> None:
    theirs = picture_of([Lay("theirs", 1, 1.0, 6.0, "m")], game=GAME)
    assert walked("start", "stop", picture=theirs)[-1][-1] == "None is ours."


def test_ditch_and_bank_are_announced_when_they_are_near() -> None:
    near = picture_of([*LAYS, Lay("ours", 3, 5.0, 12.0, "m", "ditch")], jack=Jack(y_m=28.9), game=GAME)
    said = walked("start", "next", "next", "next", "next", picture=near)
    assert any("The ditch is" in text for text in said[3])
    assert said[4][0] == "Our third in the ditch, on the path."
    assert "The ditch is here, the bank beyond it." in said[4]


def test_a_walk_that_has_not_begun_says_so_and_an_empty_rink_has_no_stops() -> None:
    assert walked("next") == [["The walk has not begun."]]
    empty = picture_of([], jack=Jack(state="dead", x_m=None, y_m=None))
    assert "Nothing lies on the rink." in walked("start", picture=empty)[0]


def test_what_is_said_on_a_walk_is_plain_words() -> None:
    chance = random.Random(4)
    for _ in range(30):
        picture = picture_of(random_lays(chance, chance.randint(0, 12), as_called=True), game=GAME)
        for said in walked("start", "next", "where", "turn", "next", "stop", picture=picture):
            assert all(re.fullmatch(r"[A-Za-z',:;. ]+", text) for text in said), said
