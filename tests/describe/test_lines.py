"""What is said of the player's lines: two sentences at most, described and never advised."""

import re

import pytest

from tests.describe.forms import forms
from tests.describe.heads import Lay, picture_of
from voicecoach.describe.line_answers import (
    angle_answer,
    miss_answer,
    speed_answer,
    turning_answer,
    weight_answer,
)
from voicecoach.describe.open_hands import hands_answer, hands_sentence
from voicecoach.describe.values import Preferences, Sentences
from voicecoach.head.values import HandLook, Hands, Miss, Turning, Weight
from voicecoach.phrasebook.wording import wording
from voicecoach.understand.values import BowlName

PREFS = Preferences()
THEIRS = BowlName(side="theirs", number=1)
NOW = picture_of([Lay("theirs", 1, 2.0, 5.0)])
CLEAR = HandLook(hand="backhand", out="left", angle_deg=10.0, state="clear", clearance_m=1.2, sure=0.97)
BLOCKED = HandLook(
    hand="forehand",
    out="right",
    angle_deg=10.0,
    state="blocked",
    by=THEIRS,
    near=THEIRS,
    short_m=2.0,
    aside="on",
    clearance_m=-0.1,
    sure=0.95,
)


def looked(*looks: HandLook, **changes: object) -> Hands:
    known = Hands(target="jack", hands=looks, roughly=False, right_hander=False)
    return known.model_copy(update=changes)


def said(sentences: Sentences) -> str:
    return " ".join(each.text for each in sentences)


def test_the_open_hand_then_the_blocked_one_with_what_blocks_it() -> None:
    sentences = hands_answer(looked(CLEAR, BLOCKED), NOW, PREFS)
    assert [each.text for each in sentences] == [
        "Backhand clear.",
        "Forehand blocked: their first, two metres short, on your line.",
    ]
    assert sentences[1].about == THEIRS, "what is asked next of it means that bowl"


def test_both_hands_clear_is_one_sentence() -> None:
    both = looked(CLEAR, CLEAR.model_copy(update={"hand": "forehand"}))
    assert said(hands_answer(both, NOW, PREFS)) == "Both hands clear."


def test_doubt_is_said_as_likely_and_less_than_even_as_perhaps() -> None:
    likely, perhaps = (BLOCKED.model_copy(update={"sure": sure}) for sure in (0.6, 0.4))
    assert said(hands_answer(looked(likely), NOW, PREFS)).startswith("Forehand likely blocked:")
    assert said(hands_answer(looked(perhaps), NOW, PREFS)).startswith("Forehand perhaps blocked:")
    in_doubt = {"sure": 0.7, "near": THEIRS, "short_m": 1.0, "aside": "right", "clearance_m": 0.35}
    assert said(hands_answer(looked(CLEAR.model_copy(update=in_doubt)), NOW, PREFS)) == (
        "Backhand likely clear: their first, one metre short, thirty five centimetres to spare on the right."
    )


def test_a_tight_line_says_how_much_room_there_is_and_on_which_side() -> None:
    tight = BLOCKED.model_copy(update={"state": "tight", "clearance_m": 0.12, "aside": "left"})
    assert (
        said(hands_answer(looked(tight), NOW, PREFS))
        == "Forehand tight: their first, two metres short, ten centimetres to spare on the left."
    )
    facing = PREFS.model_copy(update={"facing": "mat"})
    assert said(hands_answer(looked(tight), NOW, facing)).endswith("to spare on the right.")


def test_a_hair_s_breadth_is_hardly_any_room() -> None:
    hair = BLOCKED.model_copy(update={"state": "tight", "clearance_m": 0.01, "aside": "left"})
    assert said(hands_answer(looked(hair), NOW, PREFS)).endswith(
        "two metres short, hardly any room on the left."
    )


def test_what_was_taken_for_granted_is_said_first() -> None:
    rough = looked(CLEAR, roughly=True, right_hander=True)
    assert said(hands_answer(rough, NOW, PREFS)) == "For a right hander, roughly: backhand clear."
    target = looked(CLEAR, target=BowlName(side="theirs", number=2))
    assert said(hands_answer(target, NOW, PREFS)) == "To their second: backhand clear."
    past = looked(CLEAR, target="place", past_m=1.0)
    assert said(hands_answer(past, NOW, PREFS)) == "To one metre past: backhand clear."


def test_more_than_one_body_in_the_way_is_counted() -> None:
    three = BLOCKED.model_copy(update={"others": 2})
    assert said(hands_answer(looked(three), NOW, PREFS)).endswith("on your line, and two more.")


def test_both_hands_go_into_one_sentence_after_my_turn() -> None:
    one = hands_sentence(looked(CLEAR, BLOCKED), NOW, PREFS)
    assert one.text == "Backhand clear; forehand blocked: their first, two metres short, on your line."


def turned(hand: str, angle_deg: float) -> Turning:
    return Turning.model_validate(
        {
            "hand": hand,
            "out": "right" if hand == "forehand" else "left",
            "angle_deg": angle_deg,
            "interval_deg": (angle_deg - 1, angle_deg + 1),
            "up_m": 17.1,
            "aside_m": 1.74,
            "mark_m": (5.0, 0.88),
            "target_m": (27.0, 4.76),
            "ditch_m": (32.0, 5.64),
            "by": "named",
            "roughly": False,
        }
    )


def test_where_the_lines_turn_is_said_in_two_sentences_and_in_paces() -> None:
    alike = turning_answer((turned("forehand", 10.0), turned("backhand", 10.0)), PREFS)
    assert [each.text for each in alike] == [
        "Both hands turn seventeen metres from the mat, one metre seventy five to the side.",
        "They are aimed ninety centimetres wide at the mark, four metres seventy five at the jack, "
        "five metres sixty five at the ditch.",
    ]
    apart = turning_answer((turned("forehand", 10.0), turned("backhand", 11.0)), PREFS)
    assert len(apart) == 2
    paces = said(turning_answer((turned("forehand", 10.0),), PREFS.model_copy(update={"pace_m": 0.7})))
    assert paces.startswith("The forehand turns twenty four and a half paces from the mat,")


def test_a_line_says_what_it_rests_on_with_its_interval() -> None:
    named = (turned("forehand", 10.0), turned("backhand", 10.0))
    assert said(angle_answer(named)) == "Both hands: ten degrees, as it was named."
    shown = {"by": "shown", "bowls": 2, "interval_deg": (9.5, 11.1), "angle_deg": 10.3}
    assert said(angle_answer((named[0].model_copy(update=shown), named[1]))) == (
        "Forehand: ten point three degrees, from nine and a half to eleven point one, "
        "as two bowls have shown. Backhand: ten degrees, as it was named."
    )


@pytest.mark.parametrize(
    ("longer_m", "text"),
    [
        (2.0, "Two metres longer than their first."),
        (-1.0, "One metre shorter than their first."),
        (0.05, "As long as their first."),
    ],
)
def test_weight_is_told_by_the_last_bowl(longer_m: float, text: str) -> None:
    assert said(weight_answer(Weight(bowl=THEIRS, longer_m=longer_m, faster=0.04), PREFS)) == text


def test_speed_is_told_only_as_a_share() -> None:
    assert said(speed_answer(Weight(bowl=THEIRS, longer_m=2.0, faster=0.04), PREFS)) == (
        "Four per cent faster than their first."
    )
    assert said(weight_answer(None, PREFS)) == "There is no bowl of ours to go by: call it first."


@pytest.mark.parametrize(
    ("line", "weight", "text"),
    [
        (True, False, "It was line: sixty centimetres right, of good length."),
        (False, True, "It was weight: two metres short, on its line."),
        (True, True, "It was both: sixty centimetres right and two metres short."),
        (False, False, "Neither: it came to rest within your own spread."),
    ],
)
def test_a_miss_is_line_or_weight_or_both_or_neither(line: bool, weight: bool, text: str) -> None:
    found = Miss(bowl=THEIRS, right_m=0.6, past_m=-2.0, spread_m=0.3, line=line, weight=weight)
    assert said(miss_answer(found, PREFS)) == text


ADVICE = re.compile(r"\b(play|should|must|try|better|best|go for|choose|advise|recommend|draw|use)\b", re.I)


def test_no_sentence_about_the_lines_advises() -> None:
    texts = [text for key, text in wording().items() if key.startswith("lines.")]
    heard = [text for name, text in forms() if name in ("the hands", "where the line turns", "the weight")]
    assert len(texts) > 30
    assert len(heard) == 3
    assert [text for text in (*texts, *heard) if ADVICE.search(text)] == []
