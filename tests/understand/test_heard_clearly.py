"""What most decodes heard word for word, and the book lacks, is asked about; a question is answered."""

import pytest

from tests.understand.reads import UNDERSTANDING, bowl, decodes, is_dropped
from voicecoach.understand import clearly
from voicecoach.understand.meaning import Meaning
from voicecoach.understand.values import BowlRested, Expected, JackMoved, Question, Ranked, Unclear

LYING = Expected(
    next_side="theirs", next_number=2, lying=(bowl("ours", 1), bowl("theirs", 1), bowl("ours", 2))
)


def heard(*lines: str) -> Ranked | Unclear:
    return UNDERSTANDING.read(decodes(*lines), LYING)


@pytest.mark.parametrize(
    ("line", "asks"),
    [
        ("jack moved but only a wee bit", "How far?"),
        (
            "here the jack moved a metre to the left here",
            "Here the jack moved a metre to the left here: yes or no?",
        ),
    ],
)
def test_a_note_that_is_only_read_where_it_is_typed_is_asked_about(line: str, asks: str) -> None:
    read = heard(line, line, line)
    doubt = read.doubt
    assert doubt is not None
    assert doubt.ask == asks


def test_a_question_that_most_heard_is_answered_and_one_that_few_heard_is_asked_about_or_dropped() -> None:
    line, talk = "and what does it look like up there", "[unk] hat it up"
    read = heard(line, line, talk)
    assert isinstance(read, Ranked)
    assert isinstance(read.notes[0], Question)
    assert read.doubt is None
    assert isinstance(heard(line, talk, talk), Unclear)


@pytest.mark.parametrize(
    "line",
    [
        "that was a metre",
        "where did it go",
        "right",
        "no",
        "short",
        "it was two feet",
        "a bit heavy that one",
    ],
)
def test_what_people_say_in_passing_stays_dropped(line: str) -> None:
    assert is_dropped(line, LYING)


def test_a_bowl_says_enough_with_its_name_and_something_of_where() -> None:
    assert clearly.says_enough(Meaning(BowlRested(side="ours", number=2, gap_m=1.0), "hour"))
    assert clearly.says_enough(Meaning(BowlRested(side="ours", number=2, remarks=("short",)), "gap"))
    assert not clearly.says_enough(Meaning(BowlRested(side="ours", number=2), "gap"))
    assert not clearly.says_enough(Meaning(BowlRested(gap_m=1.0), "hour"))
    assert not clearly.says_enough(Meaning(JackMoved(gap_m=1.0), "hour", passing=True))


def test_talk_without_end_is_not_read_so() -> None:
    line = "and what does it look like up there"
    cut = decodes(line, line, line).model_copy(update={"cut": True})
    read = UNDERSTANDING.read(cut, LYING)
    assert isinstance(read, Unclear)
    assert read.why == "chatter"
