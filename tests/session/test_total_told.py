"""The score of the whole game, told as it stands on the board."""

import pytest

from tests.session.told import Told

END = (
    "pairs, we lead, jack at twenty seven metres",
    "our first, a metre, six o'clock",
    "end over, two to us",
)


def score(told: Told) -> tuple[int, int]:
    """Ours and theirs."""
    return told.head.score.ours, told.head.score.theirs


@pytest.mark.parametrize(
    ("said", "ours", "theirs"),
    [
        ("we're ten eight up", 10, 8),
        ("we lead ten eight", 10, 8),
        ("the score is ten eight to us", 10, 8),
        ("it's ten to eight in our favour", 10, 8),
        ("ten eight to them", 8, 10),
        ("we're eight ten down", 8, 10),
        ("they lead twelve nil", 0, 12),
        ("ten all", 10, 10),
        ("score's nine apiece", 9, 9),
        ("we're twenty one nineteen up", 21, 19),
        ("we're twenty eighteen up", 20, 18),
        ("ours seven, theirs eleven", 7, 11),
        ("ten to us, eight to them", 10, 8),
        ("we're on six, they're on nine", 6, 9),
        ("that's us fourteen twelve up", 14, 12),
    ],
)
def test_the_totals_are_taken_as_told_and_said_back(said: str, ours: int, theirs: int) -> None:
    told = Told(said)
    assert told.outcomes == ["noted"], told.said
    assert score(told) == (ours, theirs)
    assert told.said.startswith("Score: ours ")
    assert told.said == told.tell("what's the score").replace(", after no ends", "")


@pytest.mark.parametrize(
    "said", ["one up", "one down", "we're two up", "we're twenty one up", "we're three down"]
)
def test_by_how_many_a_side_is_ahead_sets_nothing(said: str) -> None:
    told = Told(*END, said)
    assert told.outcomes[-1] != "noted"
    assert score(told) == (2, 0)


@pytest.mark.parametrize(("said", "shots"), [("two to us", (2, 0)), ("two to them", (0, 2))])
def test_one_figure_is_still_the_end_and_not_the_game(said: str, shots: tuple[int, int]) -> None:
    told = Told(*END[:2], said)
    assert (score(told), told.head.score.ends) == (shots, 1)


def test_what_was_added_up_otherwise_is_asked_about_with_both_figures() -> None:
    told = Told(*END, "we're ten eight up")
    assert told.outcomes[-1] == "asked"
    assert told.said == "By the ends noted it is ours two, theirs nought. Is ours ten, theirs eight right?"
    assert score(told) == (2, 0)
    assert told.tell("yes") == "Score: ours ten, theirs eight."
    assert score(told) == (10, 8)
    told.tell("take that back")
    assert score(told) == (2, 0)


def test_a_no_leaves_what_was_added_up() -> None:
    told = Told(*END, "we're ten eight up", "no")
    assert score(told) == (2, 0)


def test_what_agrees_is_said_back_without_a_question() -> None:
    told = Told(*END, "two nil to us")
    assert told.outcomes[-1] == "noted"
    assert told.said == "Score: ours two, theirs nought."


def test_which_side_is_ahead_is_asked_where_nobody_said_it() -> None:
    told = Told("the score is ten eight")
    assert told.said == "Who is ahead, ours or theirs?"
    told.tell("theirs")
    assert score(told) == (8, 10)


def test_the_ends_that_follow_are_added_to_it_and_put_right_in_it() -> None:
    told = Told("we're ten eight up", *END)
    assert score(told) == (12, 8)
    told.tell("end one was one to them")
    assert score(told) == (10, 9)
