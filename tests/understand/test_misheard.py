"""What the ear writes for a word that was said: put right where the words as heard mean nothing.

The slips were seen on the tuning part of the hearing bench; that they help is measured on the scored part.
"""

from importlib import resources

import pytest
import yaml

from tests.understand.reads import UNDERSTANDING, bowl, decodes, note, unclear
from voicecoach import phrasebook
from voicecoach.hear.values import Heard, Hypothesis
from voicecoach.understand.misheard import Misheard
from voicecoach.understand.notes.settings import BeSilent
from voicecoach.understand.values import BowlRested, Expected, Ranked, Unclear, Walk

BOOK = phrasebook.load()


def read(*lines: str, expected: Expected | None = None) -> Ranked | Unclear:
    """What four decodes mean that all hear these lines, alike likely."""
    readings = tuple(
        Hypothesis(decode=f"decode {at}", text=line, weight=1 / len(lines))
        for at in range(4)
        for line in lines
    )
    return UNDERSTANDING.read(Heard(text=lines[0], readings=readings), expected or Expected())


@pytest.mark.parametrize(
    ("heard", "said"),
    [
        ("was sixty centimetres nine o'clock", "ours sixty centimetres nine o'clock"),
        ("a was three metres six o'clock", "ours three metres six o'clock"),
        (
            "am our fourth bowl sixty centimetres at four o'clock",
            "our fourth bowl sixty centimetres at four o'clock",
        ),
        ("a first bowl nine o'clock one metre", "our first bowl nine o'clock one metre"),
        (
            "their four thirty five centimetres twelve o'clock",
            "their fourth thirty five centimetres twelve o'clock",
        ),
        ("four metres a two o'clock their second", "four metres at two o'clock their second"),
        ("one metre at and o'clock their second", "one metre at ten o'clock their second"),
        (
            "the jack has moved well centimetres five o'clock",
            "the jack has moved twelve centimetres five o'clock",
        ),
        (
            "their third green a half metres twelve o'clock",
            "their third three and a half metres twelve o'clock",
        ),
        ("their second my centimetres at six o'clock", "their second five centimetres at six o'clock"),
        (
            "their second is fifty centimetres out half past few",
            "their second is fifty centimetres out half past two",
        ),
        (
            "our fourth twenty centimetres half past well",
            "our fourth twenty centimetres half past twelve",
        ),
        ("our fourth eight inches well the clock", "our fourth eight inches twelve o'clock"),
        ("their third a metre away at half past and", "their third a metre away at half past ten"),
        ("sorry i'm o'clock", "sorry five o'clock"),
        ("our third ninety centimetres bowl o'clock", "our third ninety centimetres four o'clock"),
        ("our third four metres up eleven o'clock", "our third four metres at eleven o'clock"),
        ("our first a metre front the jack five o'clock", "our first a metre from the jack five o'clock"),
        ("where is their third below", "where is their third bowl"),
        ("our no three metres at two o'clock", "our bowl's three metres at two o'clock"),
        ("their third in sixty centimetres nine o'clock", "their third is sixty centimetres nine o'clock"),
        ("mat third bowl eleven o'clock two inches", "their third bowl eleven o'clock two inches"),
        ("man twenty centimetres six o'clock", "theirs twenty centimetres six o'clock"),
        ("no take that mark", "no take that back"),
        ("jack moved one lie six o'clock", "jack moved one yard six o'clock"),
        ("their second metre and one o'clock", "their second a metre at one o'clock"),
        (
            "their third lies one metre and the jack ten o'clock",
            "their third lies one metre from the jack ten o'clock",
        ),
        (
            "their first bowl twenty centimetres on the jack at seven o'clock",
            "their first bowl twenty centimetres off the jack at seven o'clock",
        ),
        (
            "half has moved eighty five centimetres one o'clock",
            "the jack has moved eighty five centimetres one o'clock",
        ),
        ("their her three metres nine o'clock", "their third three metres nine o'clock"),
        ("and ten third fifty centimetres twelve o'clock", "their third fifty centimetres twelve o'clock"),
        ("a inches at seven o'clock our first", "eight inches at seven o'clock our first"),
        (
            "our second bowl seventy centimetres again o'clock",
            "our second bowl seventy centimetres at eight o'clock",
        ),
        ("at two o'clock half a metre left the", "at two o'clock half a metre their third"),
        ("my fourth bowl four metres eighty show", "my fourth bowl four metres eighty short"),
        ("well our first or eight inches at eleven", "our first eight inches at eleven o'clock"),
        (
            "our third lie sixty nine centimetres from the jack eleven o'clock",
            "our third sixty nine centimetres eleven o'clock",
        ),
        (
            "a our second is sixty centimetres away at eleven",
            "our second is sixty centimetres away at eleven",
        ),
        ("our second sixty centimetres am eleven o'clock", "our second sixty centimetres eleven o'clock"),
        ("a wood nine o'clock seventy centimetres", "our wood nine o'clock seventy centimetres"),
        ("theirs fourth at five one o'clock", "theirs four foot five one o'clock"),
        ("our fourth eighty centimetres half past by", "our fourth eighty centimetres half past five"),
        ("am i first bowl three feet at six o'clock", "our first bowl three feet at six o'clock"),
    ],
)
def test_a_slip_of_the_ear_is_put_right(heard: str, said: str) -> None:
    meant = read(heard)
    assert isinstance(meant, Ranked)
    assert (meant.notes[0], meant.doubt) == (note(said), None)


def test_a_slip_that_may_be_two_words_is_asked_about() -> None:
    meant = read("their foot two metres five o'clock")
    assert isinstance(meant, Ranked)
    assert meant.doubt is not None
    assert meant.doubt.answers == ("first", "fourth")


@pytest.mark.parametrize(
    "line",
    [
        "was two metres behind",
        "a second",
        "am i first",
        "on a metre",
        "was nine o'clock",
        "a first at two o'clock",
        "i'm at four o'clock",
        "we meet at four o'clock",
        "a metre of cloth",
        "second thoughts",
        "my foot",
        "their third beer in ninety minutes",
        "our fourth beer costs ninety centimetres weather",
        "we left at eight o'clock in lovely weather",
        "is it o'clock yet",
        "the weather is ninety metres high",
    ],
)
def test_less_than_a_distance_and_an_hour_is_never_read_so(line: str) -> None:
    assert read(line) == Unclear(why="chatter")


@pytest.mark.parametrize(
    "line",
    [
        "their third forty centimetres o'clock",
        "our second bowl eighty two o'clock twelve",
        "our two metres nine and five o'clock",
        "their fourth bowl ninety centimetres beer",
        "was nearly two metres behind the fifth",
        "theirs five centimetres through o'clock",
        "their was been o'clock fifty seven centimetres",
        "out at world eight o'clock forty centimetres",
    ],
)
def test_most_of_a_note_is_asked_for_once_more(line: str) -> None:
    assert read(line) == Unclear(why="unclear", say="Not understood. Please say it again, plainly.")


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("where does the last bowl finished", "where did the last bowl finish"),
        ("a who is lying shot", "who is lying shot"),
        ("make at eight o'clock", "make it eight o'clock"),
        ("nine nine o'clock", "no nine o'clock"),
        ("cancel the o'clock", "cancel that"),
    ],
)
def test_questions_and_corrections_are_put_right_too(line: str, said: str) -> None:
    meant = read(line)
    assert isinstance(meant, Ranked)
    assert meant.notes[0] == note(said)


def test_their_four_thirty_five_centimetres_is_sooner_their_fourth() -> None:
    line = "their four thirty five centimetres"
    heard = read(line)
    assert isinstance(heard, Unclear) or heard.doubt is not None, "half past four, five centimetres"
    placed = read(f"{line} twelve o'clock")
    assert isinstance(placed, Ranked)
    assert (placed.notes[0], placed.doubt) == (
        note("their fourth thirty five centimetres twelve o'clock"),
        None,
    )


def test_a_metres_was_a_metre_or_four_metres_and_is_asked() -> None:
    asked = read("theirs a metres two o'clock")
    assert isinstance(asked, Ranked)
    assert asked.doubt is not None
    assert asked.doubt.slot == "gap"
    said = [note(f"theirs {gap} two o'clock") for gap in ("a metre", "four metres")]
    assert set(asked.doubt.choices) == {*said}
    plain = read("theirs a metre two o'clock")
    assert isinstance(plain, Ranked)
    assert plain.doubt is None
    assert plain.notes == (said[0],)


def test_your_may_be_their_misheard_until_the_caller_is_known_to_say_it() -> None:
    line = "your second eighty centimetres two o'clock"
    meant = read(line)
    assert isinstance(meant, Ranked)
    assert meant.doubt is not None
    assert {*meant.doubt.answers} == {"ours", "theirs"}
    known = read(line, expected=Expected(your="ours"))
    assert isinstance(known, Ranked)
    assert known.doubt is None
    assert known.notes[0] == note("our second eighty centimetres two o'clock")
    misheard = read(line, expected=Expected(your="theirs"))
    assert isinstance(misheard, Ranked)
    assert misheard.doubt is None
    assert misheard.notes[0] == note("their second eighty centimetres two o'clock")


def test_metres_and_a_with_an_hour_may_be_ten_centimetres_more() -> None:
    heard = read("four metres and a twelve o'clock my second")
    assert isinstance(heard, Ranked)
    assert heard.doubt is not None
    assert set(heard.doubt.choices) == {
        note("four metres at twelve o'clock my second"),
        note("four metres ten at twelve o'clock my second").model_copy(update={"unit": "m"}),
    }


def test_or_is_four_where_the_hour_was_asked_for() -> None:
    asked = unclear("our second eighty centimetres").doubt
    assert asked is not None
    answer = read("or", expected=Expected(open=asked))
    assert isinstance(answer, Ranked)
    assert (answer.notes[0], answer.doubt) == (note("our second eighty centimetres four o'clock"), None)
    for expected in (Expected(), Expected(open=unclear("our second two o'clock").doubt)):
        other = read("or", expected=expected)
        assert isinstance(other, Unclear) or other.notes[0].kind == "question"


def test_what_is_typed_is_taken_as_it_stands() -> None:
    typed = UNDERSTANDING.read(Heard(text="was sixty centimetres nine o'clock"), Expected())
    assert isinstance(typed, Ranked)
    assert typed.notes == (BowlRested(gap_m=0.6, unit="cm", hour=9.0),)  # and not "ours"


def test_no_talk_of_the_bench_becomes_a_note() -> None:
    templates = yaml.safe_load(
        (resources.files("tests.bench.hearing") / "templates.yaml").read_text(encoding="utf-8")
    )
    talk = [line.strip(".?").lower() for line in templates["chatter"]["tuning"]]
    assert len(talk) == 30
    assert [line for line in talk if read(line) != Unclear(why="chatter")] == []


def test_every_slip_is_one_that_the_ear_can_write_and_every_word_put_right_is_in_the_book() -> None:
    writable = BOOK.words() | {word for phrase in BOOK.decoys() for word in phrase.split()}
    heard = {word for slip in BOOK.misheard for phrase in slip["heard"] for word in phrase.split()}
    assert sorted(heard - writable) == []
    assert {word for slip in BOOK.misheard for word in slip["said"].split()} <= BOOK.vocabulary


def test_lines_with_one_slip_come_before_lines_with_two() -> None:
    once, twice = Misheard(BOOK).said("am i first bowl")
    assert "um i first bowl" in once
    assert "um our first bowl" in twice
    assert "um our first bowl" not in once


def test_a_bowl_that_nobody_has_called_was_not_moved() -> None:
    line = "their first moved a metre and a half short"
    meant = read(line)
    assert isinstance(meant, Ranked)
    assert meant.notes[0] == note("their first bowl a metre and a half short")
    lying = read(line, expected=Expected(lying=(bowl("theirs", 1),)))
    assert isinstance(lying, Ranked)
    assert lying.notes[0].kind == "bowl_moved"


def test_a_bowl_apart_from_the_jack_does_not_touch_it() -> None:
    meant = read("their second ten centimetres short on the jack")
    assert isinstance(meant, Ranked)
    assert meant.notes[0] == note("their second ten centimetres short of the jack")


@pytest.mark.parametrize(
    ("line", "said"),
    [
        (
            "their our second bowl five centimetres five o'clock",
            "our second bowl five centimetres five o'clock",
        ),
        ("oh their second twelve o'clock two metres", "their second twelve o'clock two metres"),
        ("bird their second thirteen centimetres left", "their second thirteen centimetres left"),
        ("our my second eleven o'clock five centimetres", "my second eleven o'clock five centimetres"),
    ],
)
def test_a_hesitation_is_no_owner(line: str, said: str) -> None:
    meant = read(line)
    assert isinstance(meant, Ranked)
    assert meant.notes[0] == note(said)


@pytest.mark.parametrize(
    ("line", "ask"),
    [
        ("metre ten o'clock", "Make it ten o'clock: yes or no?"),
        ("bird their second thirteen centimetres left", "Their second thirteen centimetres left: yes or no?"),
    ],
)
def test_a_yes_is_asked_for_in_the_words_that_were_meant(line: str, ask: str) -> None:
    """Said back as it was heard, "metre ten o'clock: yes or no?" would leave open what a yes does."""
    heard = [line, line, line, "lovely weather"] if line.startswith("bird") else [line] * 4
    readings = tuple(
        Hypothesis(decode=f"decode {at}", text=text, weight=1.0) for at, text in enumerate(heard)
    )
    meant = UNDERSTANDING.read(Heard(text=line, readings=readings), Expected())
    assert isinstance(meant, Ranked)
    assert meant.doubt is not None
    assert meant.doubt.ask == ask


@pytest.mark.parametrize("heard", ["the stop", "stopped", "stops"])
def test_stop_is_obeyed_however_the_ear_writes_it(heard: str) -> None:
    read = UNDERSTANDING.read(decodes(heard, heard, heard), Expected())
    assert isinstance(read, Ranked)
    assert read.notes[0] == BeSilent()


@pytest.mark.parametrize("heard", ["stopped the walk", "stops the walk", "the stop the walk"])
def test_the_walk_is_stopped_however_the_ear_writes_it(heard: str) -> None:
    read = UNDERSTANDING.read(decodes(heard, heard, heard), Expected(walking=True))
    assert isinstance(read, Ranked)
    assert read.notes[0] == Walk(step="stop")
