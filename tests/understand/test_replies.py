"""An answer heard by the decode for answers, beside the decodes whose lists hold notes."""

import pytest

from tests.understand.reads import BOOK, UNDERSTANDING
from voicecoach.hear.values import ANSWERS, Heard, Hypothesis, Link
from voicecoach.understand.notes.any_setting import AnySetting
from voicecoach.understand.values import (
    BowlRested,
    Declined,
    Expected,
    OpenQuestion,
    Ranked,
    Unclear,
)

RESTED = BowlRested(side="ours", number=2, gap_m=0.8, unit="cm", hour=2.0)
SURE = OpenQuestion(slot="yes or no", choices=(RESTED,), answers=("yes",), pending=RESTED, ask="Yes or no?")
THEIRS = RESTED.model_copy(update={"side": "theirs"})
WHOSE = OpenQuestion(
    slot="side", choices=(RESTED, THEIRS), answers=("ours", "theirs"), pending=RESTED, ask="Ours or theirs?"
)


def read(
    answers: dict[str, float], others: str, question: OpenQuestion = SURE, link: Link = "good"
) -> Ranked | Unclear:
    """What is made of an answer that four other decodes hear as something else."""
    readings = [Hypothesis(decode=ANSWERS, text=text, weight=weight) for text, weight in answers.items()]
    readings += [Hypothesis(decode=f"decode {at}", text=others, weight=1.0) for at in range(4)]
    heard = Heard(text=others, readings=tuple(readings), link=link)
    return UNDERSTANDING.read(heard, Expected(open=question))


@pytest.mark.parametrize("others", ["yours", "mats", "ninth", "yes"])
@pytest.mark.parametrize("link", ["good", "noisy"])
def test_yes_is_taken_though_lists_of_notes_have_no_yes(others: str, link: Link) -> None:
    meant = read({"yes": 0.9, "[unk]": 0.1}, others, link=link)
    assert isinstance(meant, Ranked)
    assert meant.doubt is None
    assert meant.notes[0] == RESTED


def test_a_breath_before_or_after_it_is_no_word() -> None:
    for words in ("yes [unk]", "[unk] yes"):
        meant = read({words: 1.0}, "a")
        assert isinstance(meant, Ranked)
        assert meant.notes[0] == RESTED


def test_an_answer_that_is_not_sure_brings_the_same_question_again() -> None:
    meant = read({"yes": 0.5, "no": 0.5}, "mats")
    assert isinstance(meant, Ranked)
    assert meant.doubt == SURE


def test_talk_that_goes_on_is_no_answer() -> None:
    talk = "we came all the way from the coast this morning"
    assert read({"yes": 0.6, "[unk] yes [unk]": 0.4}, talk) == Unclear(why="chatter")


def test_no_declines() -> None:
    meant = read({"no": 1.0}, "our")
    assert isinstance(meant, Ranked)
    assert isinstance(meant.notes[0], Declined)


def test_stop_can_be_heard_by_every_decode_and_is_obeyed_while_a_question_is_open() -> None:
    assert "stop" in BOOK.answers(SURE)
    assert "stop" in BOOK.answers(WHOSE)
    meant = read({"stop": 1.0}, "stop")
    assert isinstance(meant, Ranked)
    assert isinstance(meant.notes[0], AnySetting)


def test_the_place_said_again_does_not_say_whose_the_bowl_is() -> None:
    meant = read({"[unk]": 1.0}, "eighty centimetres two o'clock", WHOSE)
    assert isinstance(meant, Ranked)
    assert meant.notes[0] == BowlRested(gap_m=0.8, unit="cm", hour=2.0)


def test_whose_it_is_may_be_answered_with_the_bowls_name() -> None:
    assert "their third" in BOOK.answers(WHOSE)
    meant = read({"their third": 1.0}, "their third", WHOSE)
    assert isinstance(meant, Ranked)
    assert meant.notes[0] == THEIRS.model_copy(update={"number": 3})


def test_yours_is_neither_ours_nor_theirs_where_nobody_is_known_to_say_it() -> None:
    meant = read({"yours": 1.0}, "yours", WHOSE)
    assert isinstance(meant, Ranked)
    assert meant.doubt == WHOSE
