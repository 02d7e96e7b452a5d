"""A correction in a breath of its own is about the note before it, also when that was not understood."""

from collections.abc import Callable

import pytest

from tests.understand.reads import UNDERSTANDING, decodes
from voicecoach.head import picture
from voicecoach.hear.values import Heard
from voicecoach.session.talk import Talk
from voicecoach.session.turn import When, turn
from voicecoach.session.values import Entry

WHEN = When(at="2026-06-01T14:00:00+01:00")
BEFORE = ("pairs, we lead, jack at twenty seven metres", "our first, eighty centimetres, two o'clock")
HEARD: dict[str, Callable[[str], Heard]] = {
    "typed": lambda text: Heard(text=text),
    "spoken": lambda text: decodes(text, text, text, text),
}
UNDERSTOOD = "a metre and half past ten"
NOT_UNDERSTOOD = "a metre a half past ten"
OPENINGS = ("i mean", "sorry", "no", "make that", "i meant")


def told(how: str, *lines: str) -> tuple[Talk, list[Entry]]:
    talk, entries = Talk(), []
    for line in BEFORE:
        talk, _ = turn(talk, Heard(text=line), UNDERSTANDING, WHEN)
    for line in lines:
        talk, entry = turn(talk, HEARD[how](line), UNDERSTANDING, WHEN)
        entries.append(entry)
    return talk, entries


def lies(talk: Talk) -> dict[tuple[str, int], tuple[float | None, float | None]]:
    return {
        (lie.side, lie.number): (
            None if lie.gap_m is None else round(lie.gap_m, 3),
            None if lie.hour_exact is None else round(lie.hour_exact, 2),
        )
        for lie in picture(talk.play.head).lies
    }


FIRST = {("ours", 1): (0.8, 2.0)}


@pytest.mark.parametrize("how", HEARD)
@pytest.mark.parametrize("opening", OPENINGS)
@pytest.mark.parametrize("first", [UNDERSTOOD, NOT_UNDERSTOOD])
def test_a_metre_at_half_past_ten_becomes_a_metre_at_one(how: str, opening: str, first: str) -> None:
    talk, entries = told(how, first, f"{opening} one o'clock")
    assert entries[0].outcome == ("noted" if first == UNDERSTOOD else "refused")
    assert entries[1].outcome == "noted"
    assert lies(talk) == FIRST | {("theirs", 1): (1.0, 1.0)}


@pytest.mark.parametrize("how", HEARD)
def test_the_distance_may_be_what_is_put_right(how: str) -> None:
    talk, _ = told(how, NOT_UNDERSTOOD, "sorry half a metre")
    assert lies(talk) == FIRST | {("theirs", 1): (0.5, 10.5)}


@pytest.mark.parametrize("how", HEARD)
def test_the_name_is_kept_too(how: str) -> None:
    talk, _ = told(how, f"their second {NOT_UNDERSTOOD}", "i mean one o'clock")
    assert lies(talk) == FIRST | {("theirs", 2): (1.0, 1.0)}


def test_what_is_still_missing_is_asked_for_and_the_note_before_stays() -> None:
    talk, entries = told("typed", "theirs a half past ten", "i mean one o'clock")
    assert [entry.outcome for entry in entries] == ["refused", "asked"]
    assert [sentence.text for sentence in entries[1].say] == ["How far?"]
    assert lies(talk) == FIRST
    talk, _ = turn(talk, Heard(text="a metre"), UNDERSTANDING, WHEN)
    assert lies(talk) == FIRST | {("theirs", 1): (1.0, 1.0)}


@pytest.mark.parametrize("how", HEARD)
@pytest.mark.parametrize("left_over", ["a metre a not half past ten", "a metre a seven half past ten"])
def test_a_number_or_a_not_left_over_keeps_nothing(how: str, left_over: str) -> None:
    talk, entries = told(how, left_over, "i mean one o'clock")
    assert entries[0].outcome == "refused"
    assert entries[1].outcome in ("asked", "refused")
    assert lies(talk) == FIRST


def test_only_the_next_utterance_puts_it_right() -> None:
    talk, _ = told("typed", NOT_UNDERSTOOD, "who holds", "no, three o'clock")
    assert lies(talk) == {("ours", 1): (0.8, 3.0)}


def test_talk_between_says_nothing() -> None:
    talk, _ = told("typed", NOT_UNDERSTOOD, "lovely day", "i mean one o'clock")
    assert lies(talk) == FIRST | {("theirs", 1): (1.0, 1.0)}


def test_a_bowl_that_is_named_is_put_right_all_the_same() -> None:
    talk, _ = told("typed", NOT_UNDERSTOOD, "change our first to three o'clock")
    assert lies(talk) == {("ours", 1): (0.8, 3.0)}
