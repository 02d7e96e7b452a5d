"""What a caller who tells the truth answers to each kind of question of the bench."""

from typing import Any

import pytest

from tests.bench.hearing.lines import hour_words, lines
from tests.bench.hearing.truth import means
from tests.bench.hearing.truthful import plainly, truthful
from voicecoach import phrasebook
from voicecoach.hear.values import Heard
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import (
    BowlRested,
    Expected,
    JackMoved,
    Note,
    OpenQuestion,
    Question,
    Ranked,
    Slot,
)

MEANT: dict[str, Any] = {
    "kind": "bowl_rested",
    "side": "theirs",
    "number": 3,
    "gap_m": 0.9,
    "gap_said": "ninety centimetres",
    "hour": 4.5,
}
WHOLE = BowlRested(side="theirs", number=3, gap_m=0.9, hour=4.5)


def asked(slot: Slot, pending: Note, *offered: tuple[Note, str]) -> OpenQuestion:
    choices, answers = tuple(note for note, _ in offered), tuple(words for _, words in offered)
    return OpenQuestion(slot=slot, pending=pending, choices=choices, answers=answers, ask="Which?")


def with_(**wrong: Any) -> BowlRested:
    return WHOLE.model_copy(update=wrong)


OTHERS = {
    "what is offered and true": (
        asked("hour", WHOLE, (with_(hour=4.0), "four"), (WHOLE, "half past four")),
        "half past four",
    ),
    "none offered is true": (asked("hour", with_(hour=9.0), (with_(hour=9.0), "nine")), "half past four"),
    "how far": (asked("gap", with_(gap_m=None)), "ninety centimetres"),
    "how far and where": (
        asked("gap", BowlRested(side="theirs", number=3)),
        "ninety centimetres half past four",
    ),
    "whose": (asked("side", with_(side=None)), "their third"),
    "which": (asked("number", with_(number=1), (with_(number=1), "first")), "their third"),
    "heard right": (asked("yes or no", WHOLE), "yes"),
    "heard wrongly": (asked("yes or no", with_(hour=5.0)), "no, half past four"),
    "two parts wrong": (
        asked("yes or no", with_(side="ours", gap_m=0.3)),
        "no, their third, ninety centimetres",
    ),
    "all wrong": (asked("yes or no", BowlRested(side="ours", number=1, gap_m=2.0, hour=1.0)), None),
    "another kind": (asked("yes or no", JackMoved(gap_m=0.9, hour=4.5)), None),
    "more was heard than was said": (asked("yes or no", with_(hour=5.0, remarks=("short",))), None),
    "left or right": (asked("left or right", with_(hour=None)), None),
}


@pytest.mark.parametrize(("question", "words"), OTHERS.values(), ids=OTHERS.keys())
def test_the_answer_is_what_was_meant(question: OpenQuestion, words: str | None) -> None:
    assert truthful(MEANT, question) == words


@pytest.mark.parametrize("name", [name for name, (_, words) in OTHERS.items() if words])
def test_the_program_understands_each_answer_as_what_was_meant(name: str) -> None:
    question, words = OTHERS[name]
    heard = Heard(text=str(words).replace(",", ""))
    read = Understanding(phrasebook.load()).read(heard, Expected(open=question))
    assert isinstance(read, Ranked)
    assert means(read.notes[0], MEANT)


def test_what_is_no_bowl_is_said_again() -> None:
    question = asked("yes or no", Question(ask="head"))
    assert truthful({"kind": "question", "ask": "holding"}, question) is None
    assert truthful(None, question) is None


def test_a_bowl_of_no_side_is_answered_for_as_ours() -> None:
    said = {name: value for name, value in MEANT.items() if name not in ("side", "number")}
    assert truthful(said, asked("side", with_(side=None, number=None))) == "ours"


def test_distances_are_answered_as_they_were_said() -> None:
    said = [line for line in lines("tuning", 200, 0, 1) if line.meaning and "gap_m" in line.meaning]
    assert len(said) > 100
    assert all(line.meaning and str(line.meaning["gap_said"]) in line.text for line in said)


@pytest.mark.parametrize(
    ("hour", "words"), [(12.0, "twelve o'clock"), (0.5, "half past twelve"), (3.5, "half past three")]
)
def test_hours_are_answered_in_words(hour: float, words: str) -> None:
    assert hour_words(hour) == words


def test_a_note_that_was_not_understood_is_said_in_its_plainest_form() -> None:
    said = plainly(MEANT)
    assert said == "their third bowl, ninety centimetres, half past four"
    read = Understanding(phrasebook.load()).read(Heard(text=said.replace(",", "")), Expected())
    assert isinstance(read, Ranked)
    assert means(read.notes[0], MEANT)


@pytest.mark.parametrize("changed", [{"remarks": ["short"]}, {"kind": "jack_moved"}])
def test_what_has_no_plainest_form_is_said_as_before(changed: dict[str, Any]) -> None:
    assert plainly({**MEANT, **changed}) is None
    assert plainly({name: value for name, value in MEANT.items() if name != "hour"}) is None
