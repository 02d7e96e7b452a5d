"""Whatever is asked, the asked fact comes first, in at most twelve words, unless a list was asked for."""

from functools import lru_cache
from typing import get_args

import pytest

from tests.session.told import Told
from voicecoach import describe
from voicecoach.conversation import Conversation
from voicecoach.describe.values import Battery, Sentences
from voicecoach.hear.values import Heard
from voicecoach.session.asking import answer
from voicecoach.session.talk import Talk
from voicecoach.understand.values import BowlName, Question, Topic

MOST_WORDS = 12
TOPICS: tuple[Topic, ...] = get_args(Topic)
FACTS = tuple(topic for topic in TOPICS if not describe.topic_row(topic).is_list)
PAIRS = ("pairs, we lead, jack at twenty seven metres",)
FEW = (
    *PAIRS,
    "our first, a metre, six o'clock",
    "their first, half a metre, three o'clock",
    "our second, eighty centimetres, two o'clock",
)
HEADS = {
    "nothing set": (),
    "no bowl": PAIRS,
    "one bowl": FEW[:2],
    "a few": FEW,
    "a ditch, touchers and a moved jack": (
        *FEW,
        "their second, one metre seventy five, between five and six o'clock",
        "our third, touching, toucher",
        "their third in the ditch",
        "our fourth, one metre seventy five, quarter past seven, toucher",
        "jack moved a foot left",
    ),
    "feet and a tape": (
        "fours, they lead, twelve ends",
        "green thirty six metres, mat at three metres, jack at twenty seven metres",
        "their first, two feet five inches, between ten and eleven o'clock",
        "our first, two feet six inches, half past ten",
        "their first measured four feet eleven inches",
    ),
    "a dead jack": (*FEW, "jack out of the rink"),
    "an end that is over": (*FEW, "two to us", "yes"),
    "a game that is over": ("one end, pairs, we lead", *FEW[1:], "two to us", "yes"),
    "your and their, the clock first": ("say your and their", "clock first", "use feet and inches", *FEW),
    "facing the mat, in short": ("facing the mat", "short form", *FEW),
}


@lru_cache
def after(head: str) -> Talk:
    conversation = Conversation()
    for line in HEADS[head]:
        conversation.hear(Heard(text=line))
    return conversation.talk


def answered(talk: Talk, question: Question) -> tuple[Talk, Sentences]:
    return answer(talk, question, "2026-06-01T14:05:00+01:00", Battery(percent=80))


@pytest.mark.parametrize("head", HEADS)
@pytest.mark.parametrize("topic", FACTS)
def test_a_question_that_asks_for_no_list_gets_one_fact_in_twelve_words(topic: Topic, head: str) -> None:
    named = {"side": "ours", "number": 1, "other": BowlName(side="theirs", number=1), "hour": 3.0, "count": 2}
    for said in ({}, {"number": 2}, {"side": "theirs", "number": 2}, named):
        _, told = answered(after(head), Question(ask=topic, **said))
        assert len(told) == 1
        assert len(told[0].text.split()) <= MOST_WORDS, told[0].text


@pytest.mark.parametrize("head", HEADS)
@pytest.mark.parametrize("topic", TOPICS)
def test_every_question_has_an_answer_in_every_head(topic: Topic, head: str) -> None:
    _, told = answered(after(head), Question(ask=topic))
    assert all(sentence.text for sentence in told)


FIRST: dict[Topic, str] = {
    "holding": "They hold one shot, by thirty centimetres.",
    "count": "They hold one shot, by thirty centimetres.",
    "margin": "They hold one shot, by thirty centimetres.",
    "measure": "They hold one shot, by thirty centimetres.",
    "nearest": "Their first: half a metre, three o'clock, right.",
    "second": "Our second: eighty centimetres, two o'clock, past and right.",
    "third": "Our first: one metre, six o'clock, short.",
    "bowl": "Our second: eighty centimetres, two o'clock, past and right.",
    "last": "Our second: eighty centimetres, two o'clock, past and right.",
    "score": "Score: ours nought, theirs nought.",
    "won": "Score: ours nought, theirs nought.",
    "jack": "The jack: twenty seven metres from the mat line.",
    "jack moved": "No: the jack has not moved.",
    "next up": "Next: their second.",
    "bowls left": "To come: six of ours, seven of theirs.",
    "end": "End one.",
    "toucher": "No: our first is not a toucher.",
    "apart": "One metre ten apart.",
    "ditch distance": "Not known: say the green's length in metres, and the mat line.",
    "mat": "Not set: say the mat line in metres from the ditch.",
    "ends left": "Nobody has said how many ends are played.",
    "leads next": "Whoever wins this end leads the next.",
    "time": "It is five past two.",
    "battery": "The battery is at eighty per cent.",
}
"""What is answered first in the head of three bowls; a new topic needs its own line, or is a list."""


def test_the_first_words_are_what_was_asked_for() -> None:
    assert set(FIRST) == set(FACTS)
    ours_apart = {"number": 1, "other": BowlName(side="theirs", number=1)}
    about: dict[str, dict[str, object]] = {
        "bowl": {"number": 2},
        "toucher": {"side": "ours", "number": 1},
        "apart": {"side": "ours", **ours_apart},
    }
    said = {
        topic: answered(after("a few"), Question(ask=topic, **about.get(topic, {})))[1][0].text
        for topic in FACTS
    }
    assert said == FIRST


def test_what_goes_with_the_answer_is_told_by_more() -> None:
    told = Told(*FEW, "who holds")
    assert told.said == "They hold one shot, by thirty centimetres."
    assert told.tell("more") == (
        "Their first: half a metre, three o'clock, right. "
        "Our second: eighty centimetres, two o'clock, past and right."
    )
    assert told.tell("more") == "Nothing more to read."


def test_how_many_bowls_of_each_side_is_a_question_of_its_own() -> None:
    told = Told(*FEW, "how many")
    assert told.said == "They hold one shot, by thirty centimetres."
    counts = "Two of ours, one of theirs. To come: six of ours, seven of theirs."
    assert told.tell("more") == counts
    assert told.tell("the count of each side") == counts


def test_a_list_in_groups_goes_on_after_a_question_between() -> None:
    told = Told("in groups", *FEW, "the head", "who holds")
    assert told.tell("more") == (
        "Their first: half a metre, three o'clock, right. "
        "Our second: eighty centimetres, two o'clock, past and right."
    )
    assert "Our first: one metre" in told.tell("next")


def test_who_leads_next_is_told_once_the_end_is_over() -> None:
    assert Told(*HEADS["an end that is over"], "who leads next").said == "Next end, we lead."
