"""Kinds of things that people say on the green, each told after a small head."""

import pytest

from tests.session.told import Told

HEAD = (
    "pairs, we lead, jack at twenty seven metres",
    "our first, a metre, six o'clock",
    "their first, half a metre, three o'clock",
    "our second, eighty centimetres, two o'clock",
)
FOOT_M = 0.3048  # International Yard and Pound agreement, 1959


def lies(told: Told, gap_m: float, hour: float) -> bool:
    """Whether their second was called last, and lies there."""
    lie = told.lie(-1)
    named = (lie.side, lie.number) == ("theirs", 2)
    return named and lie.gap_m == pytest.approx(gap_m) and lie.hour_exact == pytest.approx(hour)


@pytest.mark.parametrize(
    ("said", "gap_m", "hour"),
    [
        ("they've put another one in, two feet at four", 2 * FOOT_M, 4.0),
        ("opposition have drawn one, half a metre at eleven", 0.5, 11.0),
        ("theirs again, seventy centimetres, eight o'clock", 0.7, 8.0),
        ("theirs has slid a foot past", FOOT_M, 12.0),
        ("theirs drifted by, it's two feet at one o'clock", 2 * FOOT_M, 1.0),
        ("theirs, a touch under a metre, ten o'clock", 1.0, 10.0),
        ("a pair of bowls short, theirs", 0.242, 6.0),
        ("it's a foot the other side of the jack", FOOT_M, 12.0),
        ("theirs, two feet, dead nine o'clock", 2 * FOOT_M, 9.0),
    ],
)
def test_a_bowl_is_filed_as_it_was_meant(said: str, gap_m: float, hour: float) -> None:
    told = Told(*HEAD, said)
    assert told.outcomes[-1] == "noted", told.said
    assert lies(told, gap_m, hour)


@pytest.mark.parametrize(
    "said",
    [
        "just the other side of the jack",
        "theirs is hanging over the edge of the ditch",
        "their second is teetering on the lip of the ditch",
        "somebody's moved the jack",
        "their second's a belter at four o'clock",
    ],
)
def test_what_lacks_a_distance_is_asked_for_it_and_nothing_is_filed(said: str) -> None:
    told = Told(*HEAD, said)
    assert (told.outcomes[-1], told.said) == ("asked", "How far?")
    assert len(told.head.bowls) == 3
    assert all(bowl.state == "live" for bowl in told.head.bowls)


@pytest.mark.parametrize(
    "said", ["wrong bias", "wrong bias, it's out", "theirs was bowled on the wrong bias"]
)
def test_a_wrong_bias_is_no_bowl_out_of_the_rink_until_somebody_says_so(said: str) -> None:
    # A bowl is dead by where it goes (Laws of the Sport of Bowls, CM4, law 17.1, read); on which bias it was
    # played makes no difference to that.
    told = Told(*HEAD, said)
    question = "How far from the jack did it finish, or is it dead, in the ditch or out of the rink?"
    assert (told.outcomes[-1], told.said) == ("asked", question)
    out = Told(*HEAD, said, "out of the rink")
    assert out.head.bowls[-1].why_dead == "out of the rink"
    there = Told(*HEAD, said, "two metres", "nine o'clock")
    assert lies(there, 2.0, 9.0)
    assert there.head.bowls[-1].state == "live"


@pytest.mark.parametrize(
    "said", ["our second touched on the way through", "that touched", "mark our second", "chalk our second"]
)
def test_a_bowl_is_marked_a_toucher_in_the_words_people_use(said: str) -> None:
    told = Told(*HEAD, said)
    assert [bowl.toucher for bowl in told.head.bowls] == [False, False, True], told.said


@pytest.mark.parametrize("said", ["they've ditched our first", "we have just ditched our first"])
def test_a_bowl_that_was_ditched_is_in_the_ditch(said: str) -> None:
    bowl = Told(*HEAD, said).head.bowls[0]
    assert (bowl.state, bowl.why_dead) == ("dead", "in the ditch, not a toucher")


@pytest.mark.parametrize("said", ["scratch our second", "strike out our second", "wipe our second"])
def test_a_bowl_is_struck_off_by_its_name(said: str) -> None:
    assert Told(*HEAD, said).head.bowls[-1].state == "dead"


@pytest.mark.parametrize("said", ["oops, take that off", "whoops, rub that out"])
def test_the_last_note_is_taken_off_again(said: str) -> None:
    assert len(Told(*HEAD, said).head.bowls) == 2


@pytest.mark.parametrize(
    ("said", "bowl", "gap_m", "hour"),
    [
        ("not eighty, sixty", 2, 0.6, 2.0),
        ("it's not eighty, it's seventy five", 2, 0.75, 2.0),
        ("our first is at five o'clock, not six", 0, 1.0, 5.0),
        ("their first was four o'clock, not three", 1, 0.5, 4.0),
    ],
)
def test_what_it_was_not_puts_right_what_it_is(said: str, bowl: int, gap_m: float, hour: float) -> None:
    told = Told(*HEAD, said)
    assert told.outcomes[-1] == "noted", told.said
    assert told.lie(bowl).gap_m == pytest.approx(gap_m)
    assert told.lie(bowl).hour_exact == pytest.approx(hour)


@pytest.mark.parametrize(
    ("said", "ours", "theirs"),
    [("we take it by one", 1, 0), ("they nicked that end by two", 0, 2), ("single to them", 0, 1)],
)
def test_an_end_is_scored_by_who_took_it(said: str, ours: int, theirs: int) -> None:
    score = Told(*HEAD, said).head.score
    assert (score.ours, score.theirs, score.ends) == (ours, theirs, 1)


@pytest.mark.parametrize(
    ("said", "answer"),
    [
        ("did their first touch", "No: their first is not a toucher."),
        ("has our second touched the jack", "No: our second is not a toucher."),
        ("how did theirs finish", "Their first: half a metre, three o'clock, right."),
    ],
)
def test_what_became_of_a_bowl_is_answered(said: str, answer: str) -> None:
    told = Told(*HEAD, said)
    assert (told.outcomes[-1], told.said) == ("answered", answer)


@pytest.mark.parametrize("said", ["straight back", "dead centre", "straight behind"])
def test_where_along_the_ditch_the_jack_went_is_straight_back_from_where_it_lay(said: str) -> None:
    green = ("green 36 metres long, mat line at two metres", "jack at twenty seven")
    aside = Told(*green, "jack in the ditch, two feet right", said)
    assert aside.head.jack.place == pytest.approx((0.0, 34.0))
    assert aside.said.startswith("Now the jack: in the ditch, straight back.")
    unknown = Told("jack at twenty seven", "jack in the ditch", said)
    assert unknown.head.jack.state == "ditch"
    assert unknown.outcomes[-1] == "noted"
    together = Told(*green, f"jack's in the ditch, {said}")
    assert together.head.jack.place == pytest.approx((0.0, 34.0))


def test_straight_back_says_nothing_where_no_jack_went_into_the_ditch() -> None:
    assert Told(*HEAD, "straight back").outcomes[-1] in ("dropped", "refused")


@pytest.mark.parametrize(
    "said", ["no, jack at 28", "sorry, the jack is at twenty eight", "no, jack at 28 metres"]
)
def test_the_jacks_length_is_put_right_after_a_no(said: str) -> None:
    told = Told("jack at twenty seven", "our first, a metre, six o'clock", said)
    assert told.head.jack.place == (0.0, 28.0)
    assert told.lie(0).gap_m == pytest.approx(1.0)  # it was called from the jack, and goes along


def test_the_jacks_move_is_put_right_by_where_it_lies_now() -> None:
    told = Told("jack at twenty seven", "jack moved a foot left", "no, jack at 28")
    assert told.head.jack.place == (0.0, 28.0)
    assert told.tell("take that back") == "Taken back: the jack."
    assert told.head.jack.place == pytest.approx((-FOOT_M, 27.0))


@pytest.mark.parametrize("asked", ["how many ends left", "how many ends have we left", "how many ends to go"])
def test_how_many_ends_are_left_is_answered_with_that(asked: str) -> None:
    told = Told("pairs, eighteen ends, we lead", asked)
    assert told.said == "Eighteen ends left."


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("our seconds a foot behind", "our second's a foot behind"),
        ("that ones theirs not ours", "that one's theirs, not ours"),
        ("theirs seconds in the ditch", "their second's in the ditch"),
        ("jacks moved a foot left", "jack's moved a foot left"),
        ("the jacks gone a metre back", "the jack's gone a metre back"),
        ("ends a tie no shots", "end's a tie, no shots"),
        ("theirs a metre half way between four and five", "theirs, a metre, halfway between four and five"),
    ],
)
def test_what_the_ear_writes_as_many_is_read_as_it_was_said(written: str, said: str) -> None:
    as_heard, as_said = Told(*HEAD, written), Told(*HEAD, said)
    assert as_heard.said == as_said.said
    assert as_heard.outcomes[-1] == as_said.outcomes[-1] in ("noted", "asked")
    assert as_heard.head == as_said.head
