"""What was asked about is weighed with what is said to that: an answer, or the note once more."""

import pytest

from tests.understand.reads import UNDERSTANDING, decodes, note
from voicecoach.hear.values import Heard
from voicecoach.understand.deciding import Belief
from voicecoach.understand.meaning import Meaning
from voicecoach.understand.twice import twice, unsure
from voicecoach.understand.values import Expected, Maybe, Ranked, Unclear

FIVE = "our second eighty centimetres five o'clock"
NINE = "our second eighty centimetres nine o'clock"
ONE = "our second eighty centimetres one o'clock"


def belief(text: str, probability: float) -> Belief:
    return Belief(Meaning(note(text)), probability, text)


def maybe(text: str, probability: float) -> Maybe:
    return Maybe(note=note(text), probability=probability)


def again(first: Heard, second: Heard) -> Ranked | Unclear:
    """The second of two hearings, right after the first."""
    before = unsure(UNDERSTANDING.read(first, Expected()))
    return UNDERSTANDING.read(second, Expected(unsure=before))


def test_a_note_that_was_unsure_both_times_is_taken_when_it_is_the_same_note() -> None:
    first, second = decodes(FIVE, FIVE, NINE, "nice day"), decodes(FIVE, FIVE, ONE, "nice day")
    for alone in (first, second):
        read = UNDERSTANDING.read(alone, Expected())
        assert isinstance(read, Unclear) or read.doubt is not None
    read = again(first, second)
    assert isinstance(read, Ranked)
    assert (read.notes[0], read.doubt) == (note(FIVE), None)


def test_two_that_were_torn_between_both_times_stay_in_doubt() -> None:
    read = again(decodes(FIVE, FIVE, NINE, NINE), decodes(FIVE, NINE, NINE, FIVE))
    assert isinstance(read, Ranked)
    assert read.doubt is not None
    assert {note(FIVE), note(NINE)} == set(read.doubt.choices)


def test_another_note_said_instead_stands_alone() -> None:
    read = again(decodes(FIVE, FIVE, NINE, NINE), decodes(ONE, ONE, ONE, ONE))
    assert isinstance(read, Ranked)
    assert (read.notes[0], read.doubt) == (note(ONE), None)
    alone = [belief(ONE, 0.6), belief(FIVE.replace("second", "third"), 0.2)]
    assert twice(alone, [maybe(FIVE, 0.5)]) == alone


@pytest.mark.parametrize(("then", "now"), [(0.3, 0.5), (0.5, 0.3), (0.6, 0.6)])
def test_agreeing_makes_a_meaning_likelier_than_either_hearing_did(then: float, now: float) -> None:
    (found,) = twice([belief(FIVE, now)], [maybe(FIVE, then)])
    assert max(then, now) < found.probability < 1


def test_the_product_of_the_shares_decides_between_two() -> None:
    """Bayes' rule for two independent witnesses: 0.4 x 0.6 against 0.4 x 0.2 is three to one."""
    found = twice([belief(FIVE, 0.6), belief(NINE, 0.2)], [maybe(FIVE, 0.4), maybe(NINE, 0.4)])
    assert found[0].probability / found[1].probability == pytest.approx(3)
    assert sum(one.probability for one in found) <= 1


def test_metres_and_centimetres_are_the_same_place_in_both_hearings() -> None:
    first, second = "ours eighty centimetres at two", "ours nought point eight metres at two"
    (found,) = twice([belief(second, 0.5)], [maybe(first, 0.5)])
    assert found.probability > 0.5


def test_what_was_taken_leaves_nothing_to_weigh() -> None:
    assert unsure(UNDERSTANDING.read(decodes(FIVE, FIVE, FIVE, FIVE), Expected())) == ()
