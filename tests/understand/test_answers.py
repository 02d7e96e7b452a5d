"""Answers to the question that is open: only the slot in doubt, or a whole note, or no."""

import pytest

from tests.understand.reads import UNDERSTANDING, asked, bowl, is_chatter, note, unclear
from voicecoach.understand.values import (
    BowlMoved,
    BowlRested,
    Corrected,
    Declined,
    Expected,
    JackMoved,
    JackSet,
    Note,
    OpenQuestion,
    Question,
    TakenBack,
)

PENDING = BowlRested(side="ours", number=2, gap_m=0.8, unit="cm")


def after(line: str) -> Expected:
    """What is expected after a line that raises a question."""
    return Expected(open=asked(line))


def offered(slot: str, choices: tuple[Note, Note], answers: tuple[str, str]) -> Expected:
    question = {"slot": slot, "choices": choices, "answers": answers, "pending": choices[0], "ask": "?"}
    return Expected(open=OpenQuestion.model_validate(question))


@pytest.mark.parametrize(
    "answer", ["three", "three o'clock", "at three", "um three", "to three o'clock", "3", "no three"]
)
def test_an_hour_completes_the_note_that_waits_for_one(answer: str) -> None:
    assert note(answer, after("our second eighty centimetres")) == PENDING.model_copy(update={"hour": 3.0})


def test_a_half_hour_or_a_word_completes_it_too() -> None:
    waiting = after("our second eighty centimetres")
    assert note("half past three", waiting) == PENDING.model_copy(update={"hour": 3.5, "hour_width": 0.5})
    assert note("left", waiting) == PENDING.model_copy(update={"remarks": ("left",)})
    assert note("short and left", waiting) == PENDING.model_copy(update={"remarks": ("short", "left")})


def test_a_distance_completes_the_note_that_waits_for_one() -> None:
    waiting = after("our second two o'clock")
    whole = BowlRested(side="ours", number=2, gap_m=0.762, unit="ft", hour=2.0)
    assert note("two feet six", waiting) == whole
    assert note("eighty", waiting) == whole.model_copy(update={"gap_m": 0.8, "unit": "cm"})
    assert asked("eight", waiting).ask == "Eight what?"


def test_a_name_alone_waits_for_distance_and_direction() -> None:
    waiting = after("our second")
    assert note("a metre at three", waiting) == BowlRested(
        side="ours", number=2, gap_m=1.0, unit="m", hour=3.0
    )
    still = unclear("a metre", waiting)
    assert still.why == "incomplete"
    assert still.doubt is not None
    assert (still.doubt.slot, still.doubt.pending) == (
        "hour",
        BowlRested(side="ours", number=2, gap_m=1.0, unit="m"),
    )


def test_jack_high_waits_for_left_or_right() -> None:
    rested = note("the left", after("ours a foot jack high"))
    assert isinstance(rested, BowlRested)
    assert rested.remarks == ("jack high", "left")


def test_the_jack_waits_for_where_it_went() -> None:
    assert note("two o'clock", after("jack moved half a metre")) == JackMoved(gap_m=0.5, unit="m", hour=2.0)


TWO = (PENDING.model_copy(update={"hour": 5.0}), PENDING.model_copy(update={"hour": 9.0}))


@pytest.mark.parametrize(
    ("answer", "at"), [("five", 0), ("five o'clock", 0), ("nine", 1), ("at nine", 1), ("left", 1)]
)
def test_of_two_hours_the_one_that_is_said_is_taken(answer: str, at: int) -> None:
    assert note(answer, offered("hour", TWO, ("five o'clock", "nine o'clock"))) == TWO[at]


def test_an_hour_that_was_not_offered_is_taken_too() -> None:
    rested = note("seven", offered("hour", TWO, ("five o'clock", "nine o'clock")))
    assert rested == PENDING.model_copy(update={"hour": 7.0})


def test_whose_and_which_are_answered_in_a_word() -> None:
    whole = PENDING.model_copy(update={"hour": 5.0})
    sides = (whole, whole.model_copy(update={"side": "theirs"}))
    assert note("theirs", offered("side", sides, ("ours", "theirs"))) == sides[1]
    assert note("ours", offered("side", sides, ("ours", "theirs"))) == sides[0]
    assert note("yours", offered("side", sides, ("ours", "theirs"))) == sides[0]
    numbers = (whole, whole.model_copy(update={"number": 3}))
    assert note("third", offered("number", numbers, ("second", "third"))) == numbers[1]
    assert note("number two", offered("number", numbers, ("second", "third"))) == numbers[0]
    assert note("the first", offered("number", numbers, ("second", "third"))) == whole.model_copy(
        update={"number": 1}
    )


def test_a_choice_is_made_in_its_own_words() -> None:
    moved = BowlMoved(side="ours", number=2, gap_m=0.8, hour=5.0)
    corrected = Corrected(target=bowl("ours", 2), gap_m=0.8, hour=5.0)
    waiting = offered("choice", (moved, corrected), ("moved", "corrected"))
    assert note("moved", waiting) == moved
    assert note("um, corrected please", waiting) == corrected
    assert note("it has moved", waiting) == moved
    assert note("a correction", waiting) == corrected
    assert note("neither", waiting) == Declined()


@pytest.mark.parametrize("answer", ["yes", "yeah", "yep", "correct", "yes please", "that's right"])
def test_yes_confirms_the_very_note(answer: str) -> None:
    waiting = Expected(open=OpenQuestion(slot="yes or no", pending=JackSet(length_m=22.0), ask="?"))
    assert note(answer, waiting) == JackSet(length_m=22.0, confirmed=True)


@pytest.mark.parametrize("answer", ["no", "nope", "no thanks", "wrong"])
def test_no_declines(answer: str) -> None:
    waiting = Expected(open=OpenQuestion(slot="yes or no", pending=JackSet(length_m=22.0), ask="?"))
    assert note(answer, waiting) == Declined()


def test_no_with_what_is_right_puts_the_waiting_note_right() -> None:
    whole = PENDING.model_copy(update={"hour": 5.0})
    waiting = Expected(open=OpenQuestion(slot="yes or no", pending=whole, ask="?"))
    assert note("no nine o'clock", waiting) == whole.model_copy(update={"hour": 9.0})
    assert note("no theirs", waiting) == whole.model_copy(update={"side": "theirs"})
    jack = Expected(open=OpenQuestion(slot="yes or no", pending=JackSet(length_m=22.0), ask="?"))
    assert note("no twenty three metres", jack) == JackSet(length_m=23.0)


QUESTIONS = (
    after("our second eighty centimetres"),
    after("our second two o'clock"),
    offered("hour", TWO, ("five o'clock", "nine o'clock")),
    Expected(open=OpenQuestion(slot="yes or no", pending=TWO[0], ask="?")),
)


@pytest.mark.parametrize("waiting", QUESTIONS, ids=["hour", "gap", "choice of hours", "yes or no"])
def test_any_other_whole_note_is_itself(waiting: Expected) -> None:
    named = BowlRested(side="theirs", number=1, gap_m=1.0, unit="m", hour=6.0)
    assert note("their first a metre at six", waiting) == named
    assert note("a metre at six o'clock", waiting) == BowlRested(gap_m=1.0, unit="m", hour=6.0)
    assert note("take that back", waiting) == TakenBack()
    assert note("who's holding", waiting) == Question(ask="holding")
    assert note("jack at twenty six metres", waiting) == JackSet(length_m=26.0)


@pytest.mark.parametrize("waiting", QUESTIONS, ids=["hour", "gap", "choice of hours", "yes or no"])
def test_talk_is_no_answer(waiting: Expected) -> None:
    for line in (
        "lovely bowl",
        "two cups of tea",
        "three of us",
        "it's raining",
        "five pounds",
    ):
        assert is_chatter(line, waiting)
    asked = waiting.open
    assert is_chatter("eighty two", waiting) == (asked is None or asked.slot != "gap")


def test_an_answer_is_whole_at_once() -> None:
    assert UNDERSTANDING.is_whole("three", after("our second eighty centimetres"))
    assert not UNDERSTANDING.is_whole("three", Expected())


@pytest.mark.parametrize(
    ("line", "final"),
    [
        ("our second a metre at two o'clock", True),
        ("half a metre at eight o'clock", None),
        ("our second a metre", False),
        ("theirs", False),
        ("no three o'clock", True),
        ("read me the whole head", True),
    ],
)
def test_after_a_place_without_a_name_the_name_may_come(line: str, final: bool | None) -> None:
    assert UNDERSTANDING.is_final(line, Expected(after_s=1.0)) is final


@pytest.mark.parametrize("line", ["ours", "theirs", "our bowls", "the last bowl", "our four seven o'clock"])
def test_a_question_that_begins_like_a_note_waits_for_the_rest(line: str) -> None:
    assert UNDERSTANDING.is_final(line, Expected()) is False


def test_a_contradiction_is_settled_by_the_hour_or_by_the_word() -> None:
    waiting = after("our second nine o'clock right a metre")
    nine = BowlRested(side="ours", number=2, gap_m=1.0, unit="m", hour=9.0)
    three = nine.model_copy(update={"hour": 3.0, "remarks": ("right",)})
    for answer in ("nine", "nine o'clock", "left"):
        assert note(answer, waiting) == nine
    for answer in ("three", "three o'clock", "right"):
        assert note(answer, waiting) == three


def test_the_answer_needs_no_call_word() -> None:
    waiting = after("our second eighty centimetres").model_copy(update={"call_word": "caddie"})
    assert note("three", waiting) == PENDING.model_copy(update={"hour": 3.0})
    assert is_chatter("their first a metre at six", waiting)
