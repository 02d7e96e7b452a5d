"""Sayings written down before the reading was made to understand them: most come out right, none wrong."""

import re
from collections import Counter

import pytest

from tests.sayings.judging import FOLDER, USUAL, WHEN, judged, rows, told
from tests.understand.reads import UNDERSTANDING, decodes
from voicecoach.hear.values import Heard
from voicecoach.session.talk import Talk
from voicecoach.session.turn import turn

TALK = (FOLDER / "talk.txt").read_text(encoding="utf-8").splitlines()


FILES = [
    ("unseen.jsonl", 0.97, 0.0),
    ("harder.jsonl", 0.97, 0.0),
    ("fourth.jsonl", 0.97, 0.0),
    ("fifth.jsonl", 0.94, 0.0),
    ("sixth.jsonl", 0.94, 0.0),
    ("seventh.jsonl", 0.91, 0.0),
    ("eighth.jsonl", 0.85, 0.0),
]


@pytest.mark.parametrize(("name", "right", "wrong"), FILES)
def test_most_sayings_that_nobody_had_in_view_at_first_come_out_right(
    name: str, right: float, wrong: float
) -> None:
    said = rows(name)
    counts = Counter(judged(row) for row in said)
    assert counts["right"] >= right * len(said), counts
    assert counts["wrong"] <= wrong * len(said), counts


def test_nine_in_ten_sayings_come_out_right_and_none_is_filed_as_something_else() -> None:
    said = rows("held.jsonl")
    outcomes = [(judged(row), row["text"]) for row in said]
    counts = Counter(kind for kind, _ in outcomes)
    assert len(said) > 170
    assert counts["right"] >= 0.9 * len(said), [each for each in outcomes if each[0] != "right"]
    assert [text for kind, text in outcomes if kind == "wrong"] == []


@pytest.mark.parametrize(
    "line",
    [
        "how far apart are their first and our second",
        "how far is our second from their first",
        "are their first and our second far apart",
    ],
)
def test_a_question_about_two_bowls_is_not_answered_about_one(line: str) -> None:
    assert told([*USUAL, line])[-1]["say"] == ["Forty centimetres apart."]


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("theirs has died a metre and a half short", ["Their second: one and a half metres short."]),
        ("he's left it a metre and a quarter short", ["Their second: one metre twenty five short."]),
        ("opposition bowl has run off the green, dead", ["Their second: out of the rink, dead."]),
        (
            "their first has been shoved out to four o'clock, one metre",
            ["Their first now at one metre, four o'clock."],
        ),
        (
            "they've pushed our second out to a yard and a half, one o'clock",
            ["Our second now at one and a half yards, one o'clock."],
        ),
        ("their shot bowl's been pushed back a foot", ["Their first moved by one foot past."]),
        ("our nearest wood has moved a foot right", ["Our second moved by one foot right."]),
        ("the shot bowl has moved a foot left", ["Their first moved by one foot left."]),
        ("eighty centimetres dead on two their second", ["Their second: eighty centimetres, two o'clock."]),
        ("where is our best bowl", ["Our second: eighty centimetres, two o'clock, past and right."]),
        ("have we anything short", ["Short: one.", "Our first: one metre, six o'clock."]),
    ],
)
def test_what_was_once_not_understood_or_taken_for_something_else(line: str, says: list[str]) -> None:
    assert told([*USUAL, line])[-1]["say"] == says


@pytest.mark.parametrize(
    "line",
    [
        "cancel their second, a metre at two o'clock",
        "what if their second was a metre at two o'clock",
        "don't put their second a metre at two o'clock",
        "their second would be a metre at two o'clock",
        "their second needs to be a metre at two o'clock",
        "they wanted their second a metre at two o'clock",
        "their second missed by a metre at two o'clock",
        "unless their second is a metre at two o'clock",
    ],
)
def test_a_word_that_turns_the_rest_is_never_passed_over(line: str) -> None:
    *_, before, after = told([*USUAL, line])
    assert after["outcome"] != "noted"
    assert after["head"] == before["head"]


def test_another_score_for_an_end_that_is_over_is_asked_about() -> None:
    ended = ["pairs, we lead", "our first, a metre, six o'clock", "end over", "yes"]
    *_, before, asked, after = told([*ended, "two to us", "yes"])
    assert asked["say"] == ["That end has its score already. Change it: yes or no?"]
    assert (before["head"]["score"]["ours"], after["head"]["score"]["ours"]) == (1, 2)


@pytest.mark.parametrize("line", TALK)
def test_no_talk_of_bowls_changes_the_game(line: str) -> None:
    *_, before, after = told([*USUAL, line])
    assert after["outcome"] != "noted"
    assert after["head"] == before["head"]


@pytest.mark.parametrize("line", TALK)
def test_talk_of_bowls_that_is_heard_files_nothing(line: str) -> None:
    talk = Talk()
    for text in USUAL:
        talk, _ = turn(talk, Heard(text=text), UNDERSTANDING, WHEN)
    said = re.sub(r"[^a-z' ]", "", line.lower())
    after, entry = turn(talk, decodes(said, said, said, said), UNDERSTANDING, WHEN)
    assert entry.outcome != "noted"
    assert after.play.head == talk.play.head
