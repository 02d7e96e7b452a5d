"""Answers to questions, sums, what is said to the player, and questions back."""

from typing import Literal, get_args

import pytest

from tests.describe.heads import Lay, picture_of
from tests.describe.stranger import hear
from voicecoach.describe import (
    Preferences,
    answer,
    ask,
    for_player,
    lapse,
    my_turn,
    plainly,
    read_back,
    sum_up,
)
from voicecoach.head import begin, decide, evolve
from voicecoach.head import picture as seen
from voicecoach.head.values import Bowl, Event, Game, Head, Holding, Jack, JackMove, Picture, Score
from voicecoach.understand.values import (
    BowlName,
    BowlRested,
    JackMoved,
    JackSet,
    OpenQuestion,
    Question,
    Side,
    Slot,
    Topic,
    Where,
)

LAYS = [
    Lay("theirs", 1, 1.2, 6.0, "m"),
    Lay("ours", 1, 1.5, 5.0, "m"),
    Lay("theirs", 2, 0.9, 9.0),
    Lay("ours", 2, 0.8, 2.0),
    Lay("ours", 3, 0.3, 10.0),
]
HEAD = picture_of(LAYS)


def asked(ask: Topic, since: Picture | None = None, picture: Picture = HEAD, **more: object) -> list[str]:
    question = Question.model_validate({"ask": ask, **more})
    return [said.text for said in answer(question, picture, Preferences(), since)]


def names(said: list[str]) -> list[tuple[str, int]]:
    told = [hear(text) for text in said]
    return [(bowl.side, bowl.number) for bowl in told if bowl]


@pytest.mark.parametrize("ask", get_args(Topic))
def test_every_question_has_an_answer_in_every_head(ask: Topic) -> None:
    dead = picture_of([Lay("ours", 1, 1.0, 3.0, state="dead")], jack=Jack(state="dead", x_m=None, y_m=None))
    for picture in (HEAD, Picture(head=Head()), dead):
        for named in ({}, {"side": "ours"}, {"side": "theirs", "number": 9}):
            said = answer(Question.model_validate({"ask": ask, **named}), picture, Preferences(), None)
            assert said
            assert all(sentence.text[0].isupper() for sentence in said)


def test_ours_theirs_and_the_nearest_four_are_one_list_in_walking_order_with_the_side_in_each_sentence() -> (
    None
):
    assert names(asked("ours")) == [("ours", 1), ("ours", 3), ("ours", 2)]
    assert names(asked("theirs")) == [("theirs", 1), ("theirs", 2)]
    assert names(asked("nearest four")[1:]) == [("theirs", 1), ("theirs", 2), ("ours", 3), ("ours", 2)]
    assert asked("ours", picture=picture_of(LAYS[:1])) == ["None of ours lies."]


def head_with(**state: object) -> Picture:
    """A head that the rules of the next bowl are asked about."""
    return seen(Head().model_copy(update=state))


def test_where_the_jack_is_is_told_from_the_mat_line_as_called_or_as_it_moved() -> None:
    set_at = head_with(jack=Jack(y_m=26.5, called=True))
    assert asked("jack", picture=set_at) == ["The jack: twenty six and a half metres from the mat line."]
    move = JackMove(dx_m=-1.2, dy_m=0.7, where=JackMoved(), relative_sd=0.15)
    moved = head_with(jack=Jack(x_m=-1.2, y_m=27.2, called=True), jack_moves=(move,))
    assert asked("jack", picture=moved) == [
        "The jack: twenty seven metres from the mat line, one metre twenty left."
    ]
    assert asked("jack", picture=head_with()) == ["The jack: length not called."]
    assert asked("jack", picture=head_with(jack=Jack(state="ditch", called=True, y_m=34.0))) == [
        "The jack, in the ditch: thirty four metres from the mat line."
    ]
    assert asked("jack", picture=head_with(jack=Jack(state="ditch"))) == ["The jack, in the ditch."]
    aside = head_with(jack=Jack(state="ditch", x_m=1.0))
    assert asked("jack", picture=aside) == ["The jack, in the ditch: one metre right."]


@pytest.mark.parametrize(
    ("where", "units", "said"),
    [
        (Where(gap_m=0.2, unit="cm", hour=3.0), "as called", "twenty centimetres right"),
        (Where(gap_m=0.3048, unit="ft", hour=9.0), "as called", "one foot left"),
        (Where(gap_m=0.3048, unit="ft", hour=9.0), "metres", "thirty centimetres left"),
        (Where(along_m=0.5, across_m=-0.3048, unit="m"), "as called", "one foot left"),
        (Where(gap_m=0.4, unit="m", hour=2.0), "as called", "thirty centimetres right"),
    ],
)
def test_a_jack_that_went_a_little_aside_is_said_as_called_or_to_ten_centimetres(
    where: Where, units: Literal["as called", "metres"], said: str
) -> None:
    head = head_after(where)
    spoken = answer(Question(ask="jack"), seen(head), Preferences(units=units), None)[0].text
    assert spoken.endswith(f", {said}.")


def head_after(where: Where) -> Head:
    """A head whose jack was set at twenty six metres, and then moved so."""
    play = begin()
    for note in (JackSet(length_m=26.0), JackMoved.model_validate(where.model_dump())):
        decision = decide(play, note)
        assert isinstance(decision, Event)
        play = evolve(play, decision)
    return play.head


def test_a_dead_jack_leaves_nothing_to_say_of_where_bowls_lie() -> None:
    dead = Jack(state="dead", x_m=None, y_m=None)
    called = Bowl(side="theirs", number=1, x_m=0.5, y_m=27.0)
    head = head_with(jack=dead, bowls=(called,))
    assert [said.text for said in read_back(head, Preferences())] == ["The jack is dead."]
    for each in ("head", "ours", "theirs", "nearest four", "holding", "short", "behind", "round the clock"):
        assert asked(each, picture=head) == ["The jack is dead."], each
    assert asked("bowl", picture=head, side="theirs", number=1) == ["Their first: the jack is dead."]
    turn = [said.text for said in my_turn(head, Preferences())]
    assert turn[-1] == "The jack is dead."
    before = head_with(bowls=(called,))
    assert asked("changed", since=before, picture=head) == [
        "Since then: the jack moved.",
        "The jack is dead.",
    ]


def test_what_lies_behind_is_what_is_past_the_jack_on_that_side() -> None:
    assert asked("behind")[0] == "Past the jack: two."
    assert names(asked("behind")[1:]) == [("ours", 3), ("ours", 2)]
    assert asked("behind", on="left")[0] == "Past on the left: one."
    assert asked("behind", picture=picture_of(LAYS[:1])) == ["Nothing past the jack."]


def test_what_one_side_has_not_behind_is_not_said_of_both() -> None:
    answer = asked("behind", side="theirs", picture=picture_of(LAYS[:1]))
    assert answer == ["Nothing of theirs past the jack."]


def test_whose_bowl_is_next_follows_the_lead_and_the_bowl_before() -> None:
    """The players deliver alternately: World Bowls, Laws of the Sport of Bowls, law 5.1 (from memory)."""
    assert asked("next up", picture=head_with()) == ["Nobody has said who leads."]
    assert asked("next up", picture=head_with(lead="theirs")) == ["Next: their first."]
    bowl = Bowl(side="ours", number=1, x_m=0.5, y_m=27.0)
    one = {"bowls": (bowl,), "last_side": "ours", "game": Game(format="singles", bowls_each=2)}
    assert asked("next up", picture=head_with(**one)) == ["Next: their first."]
    assert asked("bowls left", picture=head_with(**one)) == ["To come: one of ours, two of theirs."]
    others = [bowl.model_copy(update={"side": s, "number": n}) for s, n in (("theirs", 1), ("ours", 2))]
    last = {**one, "bowls": (bowl, *others), "last_side": "ours"}
    assert asked("next up", picture=head_with(**last)) == ["Next: their second."]
    every = (bowl, *others, bowl.model_copy(update={"side": "theirs", "number": 2}))
    done = {**last, "bowls": every, "last_side": "theirs"}
    assert asked("next up", picture=head_with(**done)) == ["Every bowl is called."]
    assert asked("next up", picture=head_with(lead="ours", finished=True)) == ["End one is over."]


def test_which_end_it_is_and_that_it_is_over() -> None:
    assert asked("end", picture=head_with(end=3)) == ["End three."]
    assert asked("end", picture=head_with(end=3, finished=True)) == ["End three is over."]
    assert asked("bowls left", picture=head_with()) == [
        "Say the game first: singles, pairs, triples or fours."
    ]


def test_round_the_clock_goes_clockwise_from_twelve() -> None:
    assert names(asked("round the clock")[1:]) == [
        ("ours", 2), ("ours", 1), ("theirs", 1), ("theirs", 2), ("ours", 3),
    ]  # fmt: skip


def test_who_holds_gives_the_sum_and_the_nearest_of_each_side() -> None:
    said = asked("holding")
    assert said[0] == "We hold two shots, by sixty centimetres."
    assert names(said[1:]) == [("ours", 3), ("theirs", 2)]


def test_a_bowl_asked_for_is_told_with_its_side_and_a_tape_or_toucher_named() -> None:
    assert asked("bowl", side="ours", number=2) == [
        "Our second: eighty centimetres, two o'clock, past and right."
    ]
    assert asked("bowl", side="ours", number=4) == ["Our fourth: not called."]
    assert names(asked("bowl", number=1)) == [("ours", 1), ("theirs", 1)]
    assert names(asked("bowl", side="theirs")) == [("theirs", 2)]
    lies = (
        HEAD.lies[3].model_copy(update={"toucher": True}),
        HEAD.lies[4].model_copy(update={"measured": True}),
    )
    told = HEAD.model_copy(update={"lies": lies})
    assert asked("bowl", picture=told, side="ours", number=2)[0].startswith("Our second, a toucher: ")
    assert asked("bowl", picture=told, side="ours", number=3)[0].startswith("Our third, measured: ")


def test_what_changed_tells_new_bowls_and_those_that_sound_different() -> None:
    earlier = picture_of(LAYS[:4])
    assert asked("changed", earlier)[0] == "Since then: one new."
    assert names(asked("changed", earlier)[1:-1]) == [("ours", 3)]
    assert asked("changed", HEAD) == ["Nothing has changed."]
    moved = picture_of([*LAYS[:4], LAYS[4]._replace(gap_m=0.6)])
    assert asked("changed", HEAD, moved)[0] == "Since then: one changed."
    assert names(asked("changed", HEAD, moved)[1:-1]) == [("ours", 3)]
    assert asked("changed", HEAD, earlier)[:2] == ["Since then: fewer bowls.", "Our third: taken back."]
    jack = picture_of(LAYS, jack=Jack(y_m=27.5))
    assert asked("changed", HEAD, jack)[0] == "Since then: the jack moved."
    assert asked("changed", None)[1:] == [said.text for said in read_back(HEAD, Preferences())][1:]


def test_what_lies_in_the_ditch_and_what_is_dead() -> None:
    picture = picture_of([Lay("ours", 1, 2.0, 12.0, "m", "ditch"), Lay("theirs", 1, 1.0, 3.0, state="dead")])
    assert asked("ditch", picture=picture) == [
        "Our first: in the ditch, two metres, twelve o'clock, past.",
        "Their first: dead.",
    ]
    assert asked("ditch") == ["Nothing in the ditch."]


def test_short_bowls_are_what_is_in_the_way_on_the_side_asked_for() -> None:
    assert names(asked("short")[1:]) == [("theirs", 1), ("ours", 1)]
    assert asked("short", on="left")[0] == "Short on the left: one.", "one in line may be on either side"
    assert names(asked("short", on="right")[1:]) == [("theirs", 1), ("ours", 1)]
    assert asked("short", picture=picture_of([LAYS[3]]), on="left") == ["Nothing short on the left."]


def test_my_turn_gives_score_bowls_left_who_holds_and_what_is_short_on_each_hand() -> None:
    head = HEAD.head.model_copy(
        update={"game": Game(format="pairs"), "score": Score(ours=4, theirs=2, ends=2)}
    )
    picture = HEAD.model_copy(update={"head": head, "to_come": (5, 6)})
    said = [one.text for one in my_turn(picture, Preferences())]
    assert said[:3] == [
        "Score: ours four, theirs two.",
        "To come: five of ours, six of theirs.",
        "We hold two shots, by sixty centimetres.",
    ]
    assert said[3] == "Nothing short on the left."
    assert "Short in line: one." in said
    assert "Short on the right: one." in said


def test_the_count_tells_live_ditch_dead_and_to_come() -> None:
    lays = [*LAYS, Lay("theirs", 3, 1.0, 12.0, state="ditch"), Lay("theirs", 4, 1.0, 3.0, state="dead")]
    picture = picture_of(lays, game=Game(format="singles"))
    assert asked("count", picture=picture)[1:] == [
        "Three of ours, three of theirs.",
        "In the ditch: one.",
        "Dead: one.",
        "To come: one of ours, nought of theirs.",
    ]


@pytest.mark.parametrize(
    ("side", "shots", "sure", "said"),
    [
        ("ours", 2, True, "We hold two shots, by sixty centimetres."),
        ("ours", None, True, "We hold; how many is too close to call from here."),
        ("ours", None, False, "Too close to call from here: measure when the end is over."),
        (None, None, True, "Level: nobody holds."),
    ],
)
def test_the_sum_says_who_holds_how_many_by_how_much_and_how_sure(
    side: Side | None, shots: int | None, sure: bool, said: str
) -> None:
    holding = Holding(side=side, shots=shots, sure=sure, probability=0.9)
    assert sum_up(HEAD.model_copy(update={"holding": holding}), Preferences()).text == said
    assert sum_up(Picture(head=Head()), Preferences()).text == "No bowls yet."


def test_after_the_end_a_close_shot_is_to_be_measured_now_and_a_dead_jack_ends_the_matter() -> None:
    # No measuring before the end is decided (law 23.3; CM1 40.3, read).
    close = Holding(side="ours", shots=None, sure=False, probability=0.6)
    over = HEAD.model_copy(update={"holding": close, "head": HEAD.head.model_copy(update={"finished": True})})
    assert sum_up(over, Preferences()).text == "Too close to call from here: measure it."
    dead = HEAD.model_copy(update={"head": HEAD.head.model_copy(update={"jack": Jack(state="dead")})})
    assert sum_up(dead, Preferences()).text == "The jack is dead."


def test_the_player_hears_where_a_bowl_lies_how_it_missed_and_whether_the_shot_changed() -> None:
    before = picture_of(LAYS[:3])
    event = Event(note=BowlRested(gap_m=0.8, hour=2.0), bowl=BowlName(side="ours", number=2))
    (said,) = for_player(event, before, picture_of(LAYS[:4]), Preferences(sides="yours"))
    assert said.text == (
        "Your second: eighty centimetres, two o'clock, past and right; now you hold one shot."
    )
    after = picture_of([*LAYS[:4], Lay("theirs", 3, 2.0, 1.0, "m")])
    third = Event(note=BowlRested(gap_m=2.0, hour=1.0), bowl=BowlName(side="theirs", number=3))
    (said,) = for_player(third, picture_of(LAYS[:4]), after, Preferences())
    assert said.text.endswith("; we hold one shot, as before.")
    jack = Event(note=JackMoved(gap_m=0.5, unit="m", remarks=("past",)))
    close = HEAD.model_copy(update={"holding": Holding(side="ours", shots=None, sure=False, probability=0.5)})
    (said,) = for_player(jack, HEAD, close, Preferences())
    assert said.text == "Jack half a metre past; shot too close to call."
    assert for_player(event, before, HEAD, Preferences(unasked=False)) == ()


def test_a_form_that_is_set_is_what_the_head_is_read_in() -> None:
    question = Question(ask="head")
    ours = answer(question, HEAD, Preferences(form="ours"), None)
    assert [said.text for said in ours] == asked("ours")


@pytest.mark.parametrize("slot", get_args(Slot))
def test_a_question_lapses_aloud_and_says_that_nothing_is_filed(slot: Slot) -> None:
    (said,) = lapse(OpenQuestion(slot=slot, pending=BowlRested(), ask="Two or three o'clock?"))
    assert said.text == "No answer: nothing filed."


@pytest.mark.parametrize("slot", get_args(Slot))
def test_a_question_without_words_of_its_own_asks_for_its_slot(slot: Slot) -> None:
    bare = OpenQuestion(slot=slot, pending=BowlRested(), ask="")
    assert ask(bare)[0].text.endswith("?")
    offered = bare.model_copy(update={"answers": ("five", "nine o'clock")})
    assert ask(offered)[0].text == "Five or nine o'clock?"


def test_a_question_names_its_law_once_and_in_words() -> None:
    # The shortest jack, 23 m, is law 10.1.3 (quoted).
    opened = OpenQuestion(slot="yes or no", pending=BowlRested(), ask="The jack is under 23 metres. Take it?")
    said = [one.text for one in ask(opened, "10.1.3")]
    assert said == ["The jack is under twenty three metres. Take it?", "Law ten point one point three."]
    named = opened.model_copy(update={"ask": "Under the length of law 10.1.3: take it?"})
    assert len(ask(named, "10.1.3")) == 1


def test_a_refusal_is_a_whole_sentence_with_ascii_apostrophes() -> None:
    (said,) = plainly("there isn\u2019t a note to take back")
    assert said.text == "There isn't a note to take back."
