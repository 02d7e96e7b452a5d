"""A note that waits for its answer: put right, taken back, answered with a whole place, or left behind."""

import pytest

from tests.session.test_turn import Told
from voicecoach.describe import resumed
from voicecoach.head import picture

FILED = "their second two metres twelve o'clock"


def heads(told: Told) -> list[tuple[str, int, float | None, float | None]]:
    """Side, number, gap and hour of each bowl, as called."""
    return [
        (
            bowl.side,
            bowl.number,
            bowl.said.gap_m if bowl.said else None,
            bowl.said.hour if bowl.said else None,
        )
        for bowl in told.talk.play.head.bowls
    ]


@pytest.fixture
def told() -> Told:
    told = Told()
    assert told.say(FILED).outcome == "noted"
    return told


@pytest.mark.parametrize(
    ("lines", "bowl"),
    [
        (("our first a metre", "no, half a metre", "three o'clock"), ("ours", 1, 0.5, 3.0)),
        (("our first a metre", "sorry, theirs", "four o'clock"), ("theirs", 1, 1.0, 4.0)),
        (("our third a metre", "that was our second", "six o'clock"), ("ours", 2, 1.0, 6.0)),
        (("our third a metre", "make that our second", "six o'clock"), ("ours", 2, 1.0, 6.0)),
        (("their second a metre at five", "no, their third"), ("theirs", 3, 1.0, 5.0)),
        (("their second a metre at five", "I mean their third"), ("theirs", 3, 1.0, 5.0)),
    ],
)
def test_a_correction_puts_right_the_note_that_waits_and_no_other(
    told: Told, lines: tuple[str, ...], bowl: tuple[str, int, float, float]
) -> None:
    for line in lines[:-1]:
        assert told.say(line).outcome == "asked"
    assert told.say(lines[-1]).outcome == "noted"
    assert heads(told) == [("theirs", 2, 2.0, 12.0), bowl]


def test_a_correction_of_a_jack_that_waits_changes_no_bowl(told: Told) -> None:
    told.say("jack moved half a metre")
    assert told.say("no, a metre").outcome == "asked"
    assert told.spoken("three o'clock").startswith("Jack one metre")
    assert heads(told) == [("theirs", 2, 2.0, 12.0)]


@pytest.mark.parametrize("line", ["undo", "scrap that", "forget it", "cancel that", "take that back"])
def test_what_waits_is_taken_back_and_what_was_filed_stays(told: Told, line: str) -> None:
    told.say("our second half a metre")
    entry = told.say(line)
    assert entry.outcome == "refused"
    assert entry.open is None
    assert heads(told) == [("theirs", 2, 2.0, 12.0)]
    assert told.spoken(line).startswith("Taken back: their second"), "said again, it is about what was filed"


@pytest.mark.parametrize(
    ("question", "answer", "said"),
    [
        ("jack moved", "a metre back", "Jack one metre past."),
        ("jack moved", "about a metre back", "Jack one metre past."),
        ("jack moved half a metre", "back", "Jack half a metre past."),
        (
            "our second toucher in the ditch",
            "a metre behind",
            "Our second: one metre, twelve o'clock, a toucher",
        ),
        (
            "our second toucher in the ditch",
            "one metre at one",
            "Our second: one metre, one o'clock, a toucher",
        ),
        ("our second half a metre", "back", "Our second: half a metre past."),
    ],
)
def test_a_place_without_a_name_is_the_answer_and_no_other_bowl(
    told: Told, question: str, answer: str, said: str
) -> None:
    assert told.say(question).outcome == "asked"
    assert told.spoken(answer).startswith(said.rstrip("."))
    assert all((side, number) in {("theirs", 2), ("ours", 2)} for side, number, _, _ in heads(told))


def test_a_bowl_that_waited_is_named_as_not_filed_when_another_is(told: Told) -> None:
    told.say("our second half a metre")
    assert (
        told.spoken("their third a metre at four")
        == "Their third: one metre, four o'clock. Our second: not filed."
    )


def test_a_question_in_between_leaves_the_bowl_waiting(told: Told) -> None:
    told.say("our second half a metre")
    assert "not filed" not in told.spoken("who holds")
    assert told.spoken("three o'clock") == "Our second: half a metre, three o'clock."


@pytest.mark.parametrize(
    ("line", "score"),
    [
        ("no, two to us", "End one: two to us. Ours two, theirs nought."),
        ("sorry, two shots to them", "End one: two to them. Ours nought, theirs two."),
        ("correction, we got two", "End one: two to us. Ours two, theirs nought."),
    ],
)
def test_a_score_said_again_takes_the_place_of_the_one_noted(line: str, score: str) -> None:
    told = Told()
    told.say("our first a metre at one")
    told.say("end over, one to us")
    assert told.spoken(line).startswith(score)
    assert told.spoken("next end").startswith("End two: ")


def test_a_game_that_goes_on_after_an_end_says_only_once_that_it_is_over() -> None:
    told = Told()
    for line in ("our first a metre at one", "end over, one to us"):
        told.say(line)
    said = resumed(picture(told.talk.play.head), told.talk.manner.prefs, another=True)
    texts = [sentence.text for sentence in said]
    assert texts[:2] == ["Going on with the game.", "End one is over."]
    assert len(texts) == len(set(texts))


def test_a_score_said_in_passing_changes_nothing() -> None:
    told = Told()
    for line in ("our first a metre at one", "end over, one to us"):
        told.say(line)
    for line in ("two to them", "three to us"):
        assert told.say(line).outcome != "noted"
    assert told.spoken("the score").startswith("Score: ours one, theirs nought")


def test_a_score_is_never_changed_by_a_correction_once_the_next_end_has_begun() -> None:
    told = Told()
    for line in ("our first a metre at one", "end over, one to us", "next end"):
        told.say(line)
    assert told.say("no, two to us").outcome != "noted"
    assert told.spoken("the score").startswith("Score: ours one, theirs nought")


def test_a_whole_note_after_sorry_of_the_bowl_that_is_due_is_asked_about() -> None:
    for answer, lying in (
        ("instead", {("ours", 1), ("theirs", 1)}),
        ("another bowl", {("theirs", 1), ("ours", 1), ("theirs", 2)}),
    ):
        told = Told()
        for line in ("pairs, they lead", "their first, one metre, six o'clock"):
            told.say(line)
        last = "our first, half a metre, three o'clock"
        told.say(last)
        assert told.spoken("sorry, their second, a metre at four") == "Instead of our first, or another bowl?"
        assert told.say(answer).outcome == "noted"
        names = {(side, number) for side, number, _, _ in heads(told)}
        assert names == ({("theirs", 1), ("theirs", 2)} if answer == "instead" else lying)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("our second dead level a metre right", "Our second: jack high, one metre right."),
        ("our fourth a metre dead left", "Our fourth: one metre left."),
        ("our second two feet dead behind the jack", "Our second: two feet past."),
        ("our second dead", "Our second: dead."),
        ("our second one and half metres at two", "Our second: one and a half metres, two o'clock."),
        ("our third one twenty centimetres at six", "Our third: one metre twenty, six o'clock."),
    ],
)
def test_a_word_is_taken_as_it_was_meant(told: Told, line: str, said: str) -> None:
    assert told.spoken(line) == said


def test_my_last_bowl_is_never_the_other_sides() -> None:
    told = Told()
    told.say("our first a metre at six")
    told.say("their first a metre at one")
    for line in ("where's my last bowl", "where did our last bowl finish", "where is our last"):
        assert told.spoken(line).startswith("Our first: ")
    assert told.spoken("where's their last bowl").startswith("Their first: ")


def test_the_tapes_later_figure_counts_against_an_order_said_before() -> None:
    told = Told()
    for line in (
        "our first a metre at two",
        "their first two metres at six",
        "our first measured forty two centimetres",
        "their first measured forty one point five centimetres",
        "measured, their first is nearer than our first",
    ):
        told.say(line)
    assert told.spoken("who holds").startswith("They hold")
    told.say("our first measured forty centimetres at three o'clock")
    assert told.spoken("who holds").startswith("We hold")
