"""Bowls at rest and bowls moved: any order of the pieces, the trade's words, what is missing."""

import itertools

import pytest

from tests.understand.reads import asked, bowl, fields, is_chatter, note, read, unclear
from voicecoach.understand.values import BowlMoved, BowlRested, Declined, Expected, Unclear

PIECES = ("our second", "eighty centimetres", "two o'clock")


@pytest.mark.parametrize("order", list(itertools.permutations(PIECES)), ids=", ".join)
def test_the_pieces_come_in_any_order(order: tuple[str, ...]) -> None:
    expected = BowlRested(side="ours", number=2, gap_m=0.8, unit="cm", hour=2.0)
    assert note(" ".join(order)) == expected
    assert note("um " + " er ".join(order)) == expected
    assert note(", ".join(order) + ".") == expected
    assert note("okay " + " ".join(order) + " please") == expected


def test_whether_a_named_bowl_lies_there_is_a_question_and_files_nothing() -> None:
    for line in ("is their first touching the jack", "is their first a metre at two o'clock"):
        assert fields(line) == {"kind": "question", "ask": "bowl", "side": "theirs", "number": 1}
    for line in ("their first is a metre at two o'clock", "it's their first a metre at two o'clock"):
        assert note(line) == BowlRested(side="theirs", number=1, gap_m=1.0, unit="m", hour=2.0)
    assert note("is a metre at two o'clock") == BowlRested(gap_m=1.0, unit="m", hour=2.0)


@pytest.mark.parametrize(
    ("word", "remark"),
    [
        ("short", "short"),
        ("short of the jack", "short"),
        ("in front of the jack", "short"),
        ("past", "past"),
        ("past the jack", "past"),
        ("through", "past"),
        ("through the head", "past"),
        ("behind", "past"),
        ("behind the jack", "past"),
        ("back", "past"),
        ("left", "left"),
        ("on the left", "left"),
        ("to the left of the jack", "left"),
        ("right", "right"),
        ("wide", "wide"),
        ("narrow", "narrow"),
        ("on the forehand", "forehand"),
        ("backhand", "backhand"),
    ],
)
def test_the_trade_s_words_say_which_way(word: str, remark: str) -> None:
    assert fields(f"our second a metre {word}") == {
        "kind": "bowl_rested",
        "side": "ours",
        "number": 2,
        "gap_m": 1.0,
        "unit": "m",
        "remarks": (remark,),
    }


def test_two_distances_lie_along_the_rink_and_across_it() -> None:
    for line in (
        "ours a metre short and a foot left",
        "ours a metre short a foot left",
        "ours a foot left and a metre short",
        "a metre short and a foot left ours",
        "ours short a metre and left a foot",
    ):
        rested = note(line)
        assert isinstance(rested, BowlRested)
        assert (rested.along_m, rested.across_m) == (-1.0, -0.3048)
        assert (rested.gap_m, rested.hour) == (None, None)
        assert set(rested.remarks) == {"short", "left"}


def test_two_distances_that_are_alike_are_two_all_the_same() -> None:
    rested = note("our first, ninety centimetres past and ninety centimetres right")
    assert isinstance(rested, BowlRested)
    assert (rested.along_m, rested.across_m, rested.gap_m) == (0.9, 0.9, None)


@pytest.mark.parametrize(
    "line", ["ours a metre short and a foot past", "ours a metre a foot", "ours a metre short a foot"]
)
def test_two_distances_that_are_not_one_along_and_one_across_make_no_note(line: str) -> None:
    assert is_chatter(line)


@pytest.mark.parametrize("side", ["our", "my", "your"])
def test_the_director_speaks_to_the_player_about_our_bowls(side: str) -> None:
    assert fields(f"{side} second a metre at two")["side"] == "ours"


@pytest.mark.parametrize("side", ["their", "the opponent's", "the opponents", "opponents"])
def test_the_other_side_s_bowls_are_theirs(side: str) -> None:
    assert fields(f"{side} second a metre at two")["side"] == "theirs"


@pytest.mark.parametrize(
    "line", ["our second eighty centimetres", "eighty centimetres", "theirs a metre", "ours a metre toucher"]
)
def test_without_a_direction_just_that_is_asked(line: str) -> None:
    assert unclear(line).why == "incomplete"
    assert asked(line).slot == "hour"


@pytest.mark.parametrize(
    "line",
    [
        "our second two o'clock",
        "theirs short",
        "half past three",
        "ours nine o'clock left",
        "our first moved back",
        "their second went back",
    ],
)
def test_without_a_distance_just_that_is_asked(line: str) -> None:
    assert unclear(line).why == "incomplete"
    assert asked(line).slot == "gap"


def test_jack_high_needs_a_side() -> None:
    assert asked("ours a foot jack high").slot == "left or right"


@pytest.mark.parametrize(
    "line",
    [
        "theirs touching",
        "theirs on the jack",
        "theirs in the ditch",
        "their second dead",
        "ours out of the rink",
    ],
)
def test_some_places_need_no_distance(line: str) -> None:
    assert isinstance(note(line), BowlRested)


@pytest.mark.parametrize(
    ("line", "offered"),
    [
        ("ours a metre nine o'clock right", ("nine o'clock", "three o'clock")),
        ("ours a metre five o'clock left", ("five o'clock", "seven o'clock")),
        ("ours a metre two o'clock short", ("two o'clock", "four o'clock")),
        ("ours a metre half past seven past", ("half past seven", "half past ten")),
        ("ours a metre left right", ("left", "right")),
        ("ours a metre short past", ("short", "past")),
    ],
)
def test_an_hour_and_a_word_that_disagree_are_asked_about(line: str, offered: tuple[str, str]) -> None:
    assert unclear(line).why == "contradiction"
    doubt = asked(line)
    assert doubt.answers == offered
    assert len(doubt.choices) == 2


@pytest.mark.parametrize("hour", range(1, 13))
def test_a_side_word_agrees_with_the_hours_of_its_side(hour: int) -> None:
    agrees = {"left": hour in (6, 7, 8, 9, 10, 11, 12), "right": hour in (12, 1, 2, 3, 4, 5, 6)}
    agrees |= {"short": hour in (3, 4, 5, 6, 7, 8, 9), "past": hour in (9, 10, 11, 12, 1, 2, 3)}
    for word, fits in agrees.items():
        line = f"ours a metre at {hour} o'clock {word}"
        assert fits == (not is_contradiction(line)), line


def is_contradiction(line: str) -> bool:
    meaning = read(line)
    return isinstance(meaning, Unclear) and meaning.why == "contradiction"


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("their first has moved half a metre back", {"gap_m": 0.5, "remarks": ("past",), "by": True}),
        ("their first moved half a metre to two o'clock", {"gap_m": 0.5, "hour": 2.0, "by": True}),
        ("their first has been pushed a foot left", {"gap_m": 0.3048, "remarks": ("left",), "by": True}),
        ("their first has moved to half a metre at four", {"gap_m": 0.5, "hour": 4.0, "by": False}),
        ("their first is now half a metre at four", {"gap_m": 0.5, "hour": 4.0, "by": False}),
        ("their first was a toucher", {"remarks": ("toucher",)}),
        ("their first wasn't a toucher", {"remarks": ("not a toucher",)}),
        ("their first is knocked out", {"remarks": ("out of the rink",)}),
        ("their first was knocked into the ditch", {"remarks": ("in the ditch",)}),
        ("their first is a toucher", {"remarks": ("toucher",)}),
        ("their first is not a toucher", {"remarks": ("not a toucher",)}),
    ],
)
def test_a_bowl_that_lay_moves(line: str, expected: dict[str, object]) -> None:
    moved = note(line)
    assert isinstance(moved, BowlMoved)
    assert (moved.side, moved.number) == ("theirs", 1)
    for name, value in expected.items():
        assert getattr(moved, name) == value


def test_a_named_bowl_that_lies_already_can_only_move_to_the_ditch() -> None:
    lying = Expected(lying=(bowl("theirs", 1),))
    assert note("their first in the ditch").kind == "bowl_rested"
    assert note("their first in the ditch", lying).kind == "bowl_moved"
    assert note("their second in the ditch", lying).kind == "bowl_rested"
    assert note("their first a metre at two", lying).kind == "bowl_rested"


def test_a_bowl_s_width_is_the_width_of_this_game_s_bowls() -> None:
    rested = note("ours a bowl's width at three", Expected(bowl_m=0.118))
    assert isinstance(rested, BowlRested)
    assert rested.gap_m == pytest.approx(0.118)


def test_the_head_scatters() -> None:
    assert note("the head has scattered") == BowlMoved(scattered=True)


@pytest.mark.parametrize(
    ("words", "gap_m"), [("two feet two left", 26 * 0.0254), ("a foot two right", 14 * 0.0254)]
)
def test_two_inches_before_a_direction_are_inches(words: str, gap_m: float) -> None:
    assert fields(f"theirs {words}")["gap_m"] == pytest.approx(gap_m, abs=1e-4)


@pytest.mark.parametrize(
    "line", ["a metre behind our fifth", "two feet past the third", "ours a metre beyond second"]
)
def test_past_a_bowl_by_its_number_is_asked_about(line: str) -> None:
    """The bowl may lie so past the jack, or another bowl so past it."""
    raised = read(line)
    assert isinstance(raised, Unclear)
    assert raised.say == "Does that bowl itself lie past the jack: yes or no?"
    assert raised.doubt is not None
    waiting = Expected(open=raised.doubt)
    assert note("yes", waiting) == raised.doubt.pending
    assert isinstance(note("no", waiting), Declined)


@pytest.mark.parametrize(
    "line", ["our fifth a metre behind", "a metre behind the jack our fifth", "a metre through our fifth"]
)
def test_past_the_jack_is_not_asked_about(line: str) -> None:
    place = {"gap_m": 1.0, "unit": "m", "remarks": ("past",)}
    assert fields(line) == {"kind": "bowl_rested", "side": "ours", "number": 5, **place}
