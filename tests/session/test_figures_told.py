"""A number without its unit: from ten on centimetres where metres are spoken, else it is asked of what."""

import pytest

from tests.session.told import Told
from tests.understand.reads import UNDERSTANDING, decodes
from voicecoach.hear.values import Heard
from voicecoach.session.talk import Talk
from voicecoach.session.turn import When, turn

WHEN = When(at="2026-06-01T14:00:00+01:00")
ASKED = (
    "pairs, we lead, jack at twenty seven metres",
    "our first, a metre, six o'clock",
    "theirs at three o'clock",
)
IN_FEET = ("our first, two feet six, six o'clock", "theirs at three o'clock")


def test_from_ten_on_it_is_centimetres_where_metres_are_spoken() -> None:
    told = Told(*ASKED)
    assert told.said == "How far?"
    assert told.tell("eighty") == "Their first: eighty centimetres, three o'clock."


@pytest.mark.parametrize(
    ("unit", "gap_m"),
    [("feet", 1.524), ("inches", 0.127), ("centimetres", 0.05), ("it's in feet", 1.524)],
)
def test_less_is_asked_of_what_and_the_unit_completes_it(unit: str, gap_m: float) -> None:
    told = Told(*ASKED)
    assert told.tell("five") == "Five what?"
    told.tell(unit)
    assert told.outcomes[-2:] == ["asked", "noted"]
    assert told.lie(1).gap_m == pytest.approx(gap_m, abs=1e-6)
    assert told.lie(1).hour_exact == pytest.approx(3.0, abs=0.01)


def test_a_correction_afterwards_changes_the_distance_only() -> None:
    told = Told(*ASKED, "five", "feet", "no, six feet")
    assert told.outcomes[-3:] == ["asked", "noted", "noted"]
    assert told.lie(1).gap_m == pytest.approx(6 * 0.3048)
    assert told.lie(1).hour_exact == pytest.approx(3.0, abs=0.01)
    told.tell("no, four o'clock")
    assert told.lie(1).gap_m == pytest.approx(6 * 0.3048)
    assert told.lie(1).hour_exact == pytest.approx(4.0, abs=0.01)


def test_a_half_goes_with_it() -> None:
    told = Told(*ASKED)
    assert told.tell("two and a half") == "Two and a half what?"
    told.tell("feet")
    assert told.lie(1).gap_m == pytest.approx(2.5 * 0.3048)


def test_a_whole_distance_answers_of_what_as_well() -> None:
    told = Told(*ASKED, "five", "six feet")
    assert told.lie(1).gap_m == pytest.approx(6 * 0.3048)
    assert Told(*ASKED, "five", "eighty").lie(1).gap_m == pytest.approx(0.8)


def test_another_small_number_is_asked_about_anew() -> None:
    told = Told(*ASKED, "five")
    assert told.tell("six") == "Six what?"
    told.tell("inches")
    assert told.lie(1).gap_m == pytest.approx(6 * 0.0254)


@pytest.mark.parametrize("before", [IN_FEET, ("use feet and inches", *ASKED)])
def test_in_feet_every_number_is_asked_of_what(before: tuple[str, ...]) -> None:
    told = Told(*before)
    assert told.tell("eighteen") == "Eighteen what?"
    told.tell("inches")
    assert told.lie(1).gap_m == pytest.approx(18 * 0.0254)


def test_a_whole_note_without_a_unit_is_asked_about_in_feet_and_filed_in_metres() -> None:
    told = Told(IN_FEET[0])
    assert told.tell("their first, sixty, nine o'clock") == "Sixty what?"
    told.tell("inches")
    assert told.lie(1).gap_m == pytest.approx(60 * 0.0254)
    metric = Told(*ASKED[:2], "their first, sixty, nine o'clock")
    assert metric.lie(1).gap_m == pytest.approx(0.6)


def test_a_unit_alone_says_nothing_where_no_number_was_said() -> None:
    told = Told(*ASKED)
    told.tell("feet")
    assert told.entries[-1].outcome != "noted"
    assert len(told.head.bowls) == 1


def test_spoken_it_is_asked_and_completed_too() -> None:
    talk = Talk()
    for line in ASKED:
        talk, _ = turn(talk, Heard(text=line), UNDERSTANDING, WHEN)
    talk, entry = turn(talk, decodes(*["five"] * 4), UNDERSTANDING, WHEN)
    assert [sentence.text for sentence in entry.say] == ["Five what?"]
    talk, entry = turn(talk, decodes(*["feet"] * 4), UNDERSTANDING, WHEN)
    assert entry.outcome == "noted"
    assert entry.note is not None
    assert talk.play.head.bowls[1].said is not None
    assert talk.play.head.bowls[1].said.gap_m == pytest.approx(1.524)
