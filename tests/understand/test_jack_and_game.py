"""The jack, the game, the end, the tape, the settings, the walk: what belongs to each and what doesn't."""

import pytest

from tests.understand.reads import asked, bowl, fields, is_chatter, note, unclear
from voicecoach.understand.notes.settings import CallWord, PaceSet, Player, Remarked, Stands
from voicecoach.understand.values import (
    Aim,
    EndFinished,
    EndStarted,
    Expected,
    GameSet,
    JackMoved,
    JackSet,
    Measured,
    Note,
    Question,
    Walk,
)


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("jack at twenty six metres", JackSet(length_m=26.0)),
        ("the jack's set at 24.5 metres", JackSet(length_m=24.5)),
        ("jack at twenty six", JackSet(length_m=26.0)),
        ("the jack is at twenty eight yards", JackSet(length_m=25.6032)),
        ("jack moved half a metre to two o'clock", JackMoved(gap_m=0.5, unit="m", hour=2.0)),
        ("jack moved a foot to three o'clock", JackMoved(gap_m=0.3048, unit="ft", hour=3.0)),
        ("the jack has gone half a metre back", JackMoved(gap_m=0.5, unit="m", remarks=("past",))),
        ("the jack's gone half a metre towards two o'clock", JackMoved(gap_m=0.5, unit="m", hour=2.0)),
        ("jack half a metre left", JackMoved(gap_m=0.5, unit="m", remarks=("left",))),
        ("jack's been moved a metre short", JackMoved(gap_m=1.0, unit="m", remarks=("short",))),
        ("jack trailed a metre", JackMoved(gap_m=1.0, unit="m", remarks=("past",))),
        ("jack's moved to twenty four metres", JackMoved(length_m=24.0)),
        ("the jack is in the ditch", JackMoved(remarks=("in the ditch",))),
        ("jack dead", JackMoved(remarks=("dead",))),
        ("the jack is out of the rink", JackMoved(remarks=("out of the rink",))),
        ("re-spot the jack", JackMoved(remarks=("respotted",))),
        (
            "jack moved a metre back and a foot left",
            JackMoved(unit="m", remarks=("past", "left"), along_m=1.0, across_m=-0.3048),
        ),
    ],
)
def test_the_jack(line: str, expected: Note) -> None:
    assert note(line) == expected


def test_a_jack_that_moved_somewhere_is_asked_where_to() -> None:
    assert asked("jack moved half a metre").slot == "hour"
    assert asked("jack moved to two o'clock").slot == "gap"
    for line in ("jack moved back", "the jack has moved left", "jack's moved right"):
        assert asked(line).slot == "gap", line
    assert unclear("jack moved a metre nine o'clock right").why == "contradiction"


def test_jack_high_is_not_the_jack() -> None:
    assert fields("ours jack high a foot left")["kind"] == "bowl_rested"


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("pairs", GameSet(format="pairs")),
        ("we're playing triples, three bowls each", GameSet(format="triples", bowls_each=3)),
        ("they lead", GameSet(lead="theirs")),
        ("mat line at two metres", GameSet(mat_m=2.0)),
        ("rink 5.8 metres wide", GameSet(rink_m=5.8)),
        ("the green is forty yards long", GameSet(green_m=36.576)),
        ("fours we lead jack at twenty three", GameSet(format="fours", lead="ours", jack_m=23.0)),
        ("bowls 116 mm", GameSet(bowl_mm=116.0)),
        ("jack 64 mm", GameSet(jack_mm=64.0)),
        ("the player is left handed", GameSet(hand="left")),
        ("no respot", GameSet(respot=False)),
        ("twenty one ends", GameSet(ends=21)),
        ("first to twenty five", GameSet(up_to=25)),
    ],
)
def test_the_game(line: str, expected: Note) -> None:
    assert note(line) == expected


def test_once_bowls_lie_who_leads_is_talk() -> None:
    lying = Expected(lying=(bowl("ours", 1),))
    assert is_chatter("we lead", lying)
    assert is_chatter("pairs", lying)
    assert note("pairs they lead", lying) == GameSet(format="pairs", lead="theirs")


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("the end is finished", EndFinished()),
        ("that's the end", EndFinished()),
        ("end finished two shots to us", EndFinished(side="ours", shots=2)),
        ("the end is over, one shot to them", EndFinished(side="theirs", shots=1)),
        ("end over, three to us", EndFinished(side="ours", shots=3)),
        ("end over, no score", EndFinished(shots=0)),
        ("end over, tied end", EndFinished(shots=0)),
        ("two shots to them", EndFinished(side="theirs", shots=2)),
        ("dead end", EndFinished(replayed=True)),
        ("replay the end", EndFinished(replayed=True)),
        ("next end", EndStarted()),
        ("start a new end", EndStarted()),
        ("measured our second 42 cm", Measured(side="ours", number=2, gap_m=0.42, unit="cm")),
        (
            "our second is nearer than their first",
            Measured(side="ours", number=2, nearer_than=bowl("theirs", 1)),
        ),
        ("their first beats our second", Measured(side="theirs", number=1, nearer_than=bowl("ours", 2))),
        ("aim", Aim()),
        ("what's the aim at three metres", Aim(at_m=3.0)),
        ("start the walk", Walk(step="start")),
        ("turn round", Walk(step="turn")),
        ("stop the walk", Walk(step="stop")),
        ("i'm at the head facing the mat", Stands(value="head")),
        ("i'm back at the mat", Stands(value="mat")),
        ("remark: head up, eyes closed", Remarked(value="head up eyes closed")),
        ("remark on their third: lucky", Remarked(value="lucky", side="theirs", number=3)),
        ("the player is called margaret", Player(value="margaret")),
        ("my pace is two feet", PaceSet(value=0.6096)),
        ("call word off", CallWord(value="off")),
    ],
)
def test_the_end_the_tape_the_walk_and_the_settings(line: str, expected: Note) -> None:
    assert note(line) == expected


@pytest.mark.parametrize(
    ("line", "step", "ask"),
    [
        ("next", "next", "next"),
        ("back", "back", "back"),
        ("again", "again", "again"),
        ("go on", "next", "go on"),
    ],
)
def test_on_a_walk_next_and_back_mean_the_walk(line: str, step: str, ask: str) -> None:
    assert note(line, Expected(walking=True)) == Walk.model_validate({"step": step})
    assert note(line, Expected(reading=True)) == Question.model_validate({"ask": ask})
    assert note(line) == Question.model_validate({"ask": ask})


def test_here_is_only_said_on_a_walk() -> None:
    assert note("here", Expected(walking=True)) == Walk(step="here")
    assert is_chatter("here")


def test_a_bowl_is_asked_for_by_name() -> None:
    assert note("where's their third") == Question(ask="bowl", side="theirs", number=3)
    assert note("where is our last bowl") == Question(ask="last", side="ours")
    assert note("what's short on the right hand side") == Question(ask="short", on="right")


def test_a_jack_that_comes_forward_comes_towards_the_mat() -> None:
    assert fields("the jack's come forward a foot") == fields("the jack's come back a foot")


def test_the_white_is_the_jack() -> None:
    assert fields("the white has moved back a foot") == fields("the jack has moved back a foot")


def test_several_small_words_may_open_a_typed_note() -> None:
    assert fields("okay so right theirs, a metre at four") == fields("theirs, a metre at four")
