"""Ends finished, scores put right later, an extra end: told as a director tells them."""

import pytest

from tests.session.told import Told

CLOSE = ("singles, we lead", "our first, a metre, two o'clock", "their first, a metre, six o'clock")
OURS = "our first, a metre, two o'clock"


def test_an_end_with_bowls_uncalled_that_is_too_close_says_both_before_it_counts() -> None:
    told = Told(*CLOSE, "end over")
    assert "Six bowls have not been called" in told.said
    assert "too close to call" in told.said
    told.tell("yes")
    assert told.outcomes[-1] == "noted"


def test_the_score_that_is_right_is_an_answer_to_the_question_about_it() -> None:
    told = Told(*CLOSE, "end over", "no, two to us")
    assert told.outcomes[-1] == "noted"
    assert (told.head.score.ours, told.head.score.theirs) == (2, 0)


@pytest.mark.parametrize("line", ["one up", "one down", "five up", "ten up", "two up"])
def test_how_the_game_stands_sets_nothing(line: str) -> None:
    told = Told(line)
    assert told.head.game.up_to is None
    assert told.outcomes in (["dropped"], ["refused"])


def test_a_game_to_so_many_shots_is_set_by_words_that_say_so() -> None:
    assert Told("first to ten").head.game.up_to == 10
    assert Told("singles, we lead, twenty one up").head.game.up_to == 21


def test_the_other_side_scored() -> None:
    told = Told(OURS, "end over, two to us", "sorry, theirs")
    assert told.said.startswith("End one: two to them. Ours nought, theirs two.")


@pytest.mark.parametrize(
    ("line", "ours", "theirs", "lead"),
    [
        ("end one was two to them", 0, 2, "theirs"),
        ("sorry, end one was three to us", 3, 0, "ours"),
        ("last end was one to them", 0, 1, "theirs"),
        ("end one was no score", 0, 0, "ours"),
    ],
)
def test_the_score_of_an_earlier_end_is_put_right(line: str, ours: int, theirs: int, lead: str) -> None:
    told = Told("pairs, we lead", OURS, "end over, two to us", "yes", "next end", line)
    assert (told.head.score.ours, told.head.score.theirs, told.head.score.ends) == (ours, theirs, 1)
    assert told.head.end == 2
    assert told.head.lead == lead
    told.tell("take that back")
    assert (told.head.score.ours, told.head.score.theirs) == (2, 0)


def test_an_end_past_the_ninth_is_put_right() -> None:
    told = Told(*("end over, one to us", "next end") * 12, "end twelve was three to them")
    assert (told.head.score.ours, told.head.score.theirs, told.head.score.ends) == (11, 3, 12)


def test_an_end_that_nobody_scored_has_no_score_to_put_right() -> None:
    assert Told("end three was one to us").said == "No score of that end was noted: say which end it was."


def test_a_level_game_has_an_extra_end_that_nobody_leads_before_the_toss() -> None:
    # That a toss decides who leads an extra end: common practice, no source here.
    told = Told("two ends", "end over, one to us", "next end", "end over, one to them")
    assert told.said.endswith("The game is level: for an extra end say next end.")
    told.tell("next end")
    assert (told.head.end, told.head.lead) == (3, None)
    assert "toss" in told.said
    told.tell("they lead")
    assert told.head.lead == "theirs"


def test_a_game_that_is_won_after_its_last_end_is_over() -> None:
    told = Told("two ends", "end over, one to us", "next end", "end over, two to us")
    assert told.said.endswith("The game is over.")


def test_a_correction_after_a_correction_was_taken_back_is_about_the_same_bowl() -> None:
    told = Told(OURS, "jack moved a foot left", "change our first to two metres", "take that back")
    jack = told.head.jack.place
    told.tell("no, a foot")
    assert told.head.jack.place == jack
    assert told.lie().gap_m == pytest.approx(0.3048)


def test_bowls_numbered_without_a_side_are_one_sides() -> None:
    told = Told("bowl one, a metre, two o'clock", "bowl two, a metre, six o'clock")
    assert [(lie.side, lie.number) for lie in (told.lie(0), told.lie(1))] == [("ours", 1), ("ours", 2)]


def test_a_number_that_fits_the_side_due_is_its_own() -> None:
    told = Told("bowl one, a metre, two o'clock", "bowl one, a metre, six o'clock")
    assert [(lie.side, lie.number) for lie in (told.lie(0), told.lie(1))] == [("ours", 1), ("theirs", 1)]


def test_bowls_to_come_follow_the_highest_number_called() -> None:
    told = Told("pairs", "our third, a metre, two o'clock", "our fourth, a metre, six o'clock")
    assert told.tell("how many bowls are left") == "To come: four of ours, eight of theirs."


def test_another_number_alone_is_the_same_sides() -> None:
    told = Told(OURS, "end over, two to us", "sorry, three")
    assert told.said.startswith("End one: three to us. Ours three, theirs nought.")


def test_a_score_put_right_and_taken_back_is_said_as_it_stands_again() -> None:
    told = Told(OURS, "end over, two to us", "sorry, theirs", "take that back")
    assert told.said == "Taken back. Ours two, theirs nought."
