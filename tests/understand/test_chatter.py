"""Talk between people files nothing and asks nothing: it is dropped in silence."""

import re

import pytest

from tests.understand.reads import BOOK, fields, is_asked_for_again, is_chatter, is_dropped, is_no_note
from voicecoach.phrasebook.book import Example
from voicecoach.understand.values import Expected

TALK = """
lovely bowl
good bowl
good bowl that one
well bowled
that's a great shot
oh unlucky
come on my beauty
nice line that
you're a bit heavy
just a bit more weight
how was that
went back
he went back
gone back then
the wind is getting up
it's going to rain
the sun's out at last
cold today isn't it
two cups of tea please
one sugar or two
shall we have a cup of tea at four
see you at half past three tomorrow
it's two o'clock
it's half past three
the bus goes at four o'clock
my wife is at home
your turn to buy the drinks
their skip is very good
our club won last year
theirs is a lovely green
yours is better than mine
did you see the second one
i was second last week
first class that
you must be joking
number nine bus
five pounds please
two of them were here before
that one was a metre away from me yesterday at four
it was about a metre yesterday
i live two yards from the club
she's six feet tall
give him an inch
three of us are coming at ten
he has four bowls
stand to the left of me
keep to your right
stay behind the mat please
mind the ditch
mind your step on the left
don't stand in front of the jack
pick up the jack
who's jack
jack is my neighbour
jack said he would come at two
hello jack
is that a toucher do you think
touch her arm
chalk it
take care
take that home
scratch my back
start the car
stop it you two
next week then
go on then you have it
again and again
where are my glasses
where is the tea
who is holding my coat
how many people are here
what's the score in the football
the last bus
the end is near
read the paper
one
two
twelve
eighty
eighty two
three four five
twenty six
four point five
no
yes
sorry
sorry about that
no sorry
okay
right then
right
left
short
past
wide
dead
wait
actually
um
the
a
our
at three
at three o'clock tomorrow
to two
bowl
jack
the jack
metre
metres
o'clock
half past
half a
point five
and
and a half
"""
CHATTER = TALK.strip().splitlines()


@pytest.mark.parametrize("line", CHATTER)
def test_talk_is_dropped(line: str) -> None:
    assert is_chatter(line)


def test_where_it_went_is_talk_where_it_is_heard_and_a_question_where_it_is_typed() -> None:
    assert is_dropped("where did it go")
    assert fields("where did it go") == {"kind": "question", "ask": "last"}


def test_nothing_heard_is_dropped() -> None:
    assert is_chatter("")
    assert is_chatter("[unk]")
    assert is_chatter("[unk] [unk] our")
    assert is_chatter("?!")


NAMED = re.compile(r"\b(our|my|their|the opponent's) (first|second|third|fourth)\b|o'clock")
"""With a distance, a bowl's name or an o'clock is too much for talk by chance."""


@pytest.mark.parametrize(
    "example",
    [example for example in BOOK.examples() if not example.sentence.startswith("remark")],
    ids=lambda example: example.sentence,
)
def test_a_note_with_one_strange_word_is_asked_for_again_where_it_is_most_of_a_note_and_else_dropped(
    example: Example,
) -> None:
    far = "gap_m" in example.meaning or "along_m" in example.meaning
    meant = far and NAMED.search(example.sentence)
    for line in (f"grandmother {example.sentence}", f"{example.sentence} [unk]"):
        assert is_asked_for_again(line) if meant else is_dropped(line)


@pytest.mark.parametrize("example", BOOK.examples(), ids=lambda example: example.sentence)
def test_a_note_of_another_day_is_talk(example: Example) -> None:
    if not example.sentence.startswith("remark"):  # a remark is in the speaker's own words
        assert is_dropped(f"{example.sentence} yesterday")


def test_a_line_that_goes_on_and_on_is_dropped_at_once() -> None:
    assert is_chatter("our second a metre at two " * 2000)
    assert is_chatter("no " * 5000)
    assert not is_chatter("remark " + "on and on " * 50)


@pytest.mark.parametrize("gap", ["-1 metre", "minus one metre", "-0.5 m", "1e9 m", "50% of a metre"])
def test_what_is_no_distance_is_asked_for_again_with_a_bowls_name_and_an_hour(gap: str) -> None:
    assert is_asked_for_again(f"our second {gap} at two")
    assert is_no_note(f"our second {gap} at two")


def test_a_number_that_the_book_has_no_word_for_is_no_distance_at_all() -> None:
    assert is_dropped("our second 1000 metres at two")
    assert is_no_note("our second 1000 metres at two")


def test_a_remark_half_heard_is_dropped() -> None:
    assert is_chatter("remark shoulder [unk]")


def test_with_a_call_word_set_only_what_begins_with_it_is_taken() -> None:
    called = Expected(call_word="caddie")
    assert is_chatter("our second a metre at four", called)
    assert not is_chatter("caddie our second a metre at four", called)
    assert is_chatter("caddie", called)
