"""How good the link was decides how sure a note must be."""

import pytest

from voicecoach import phrasebook
from voicecoach.hear.values import Heard, Hypothesis, Link, Word
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import BowlRested, Expected, Ranked

SAID = "our second eighty centimetres two o'clock"
OTHER = "our second eighty centimetres ten o'clock"


def torn(link: Link, *torn_decodes: str) -> Heard:
    """Four decodes hear one thing, some of them as likely another; the words are not trusted alone."""
    readings = [
        Hypothesis(decode=name, text=text, weight=0.5 if name in torn_decodes else 1.0)
        for name in ("one", "two", "three", "four")
        for text in ((SAID, OTHER) if name in torn_decodes else (SAID,))
    ]
    words = tuple(Word(text=word, confidence=0.7) for word in SAID.split())
    return Heard(text=SAID, words=words, readings=tuple(readings), link=link)


def accepted(heard: Heard) -> bool:
    read = Understanding(phrasebook.load()).read(heard, Expected())
    return isinstance(read, Ranked) and read.doubt is None


@pytest.mark.parametrize("link", ["good", "noisy"])
def test_decodes_that_nearly_agree_are_enough_and_two_that_are_torn_are_not(link: Link) -> None:
    assert accepted(torn(link, "four"))
    assert not accepted(torn(link, "three", "four"))


def heard_by_four(*lines: str, confidence: float = 1.0, link: Link = "good") -> Heard:
    """What each of four decodes hears; the words of the first, the main decode's, are trusted so far."""
    readings = tuple(Hypothesis(decode=str(at), text=line, weight=1.0) for at, line in enumerate(lines))
    words = tuple(Word(text=word, confidence=confidence) for word in lines[0].split())
    return Heard(text=lines[0], words=words, readings=readings, link=link)


def believed(heard: Heard) -> float:
    read = Understanding(phrasebook.load()).read(heard, Expected())
    assert isinstance(read, Ranked)
    return read.probabilities[0]


def test_confidence_in_the_words_makes_up_for_a_decode_that_made_nothing_of_them() -> None:
    assert believed(heard_by_four(SAID, SAID, SAID, "[unk]")) > 0.95
    assert believed(heard_by_four(SAID, SAID, SAID, "[unk]", confidence=0.7)) == 0.75


def test_but_not_for_one_that_heard_the_same_and_more() -> None:
    less = "second eighty centimetres two o'clock"
    assert believed(heard_by_four(less, less, less, SAID)) == 0.75


def test_nor_for_one_that_surely_heard_something_else() -> None:
    assert believed(heard_by_four(SAID, SAID, SAID, OTHER)) == 0.75


WITHOUT_OWNER = "second bowl eighty centimetres two o'clock"


@pytest.mark.parametrize("link", ["noisy", "faint", "clipped", "narrow"])
def test_over_a_poor_link_a_bowl_without_its_owner_is_asked_about(link: Link) -> None:
    read = Understanding(phrasebook.load()).read(
        heard_by_four(WITHOUT_OWNER, WITHOUT_OWNER, link=link), Expected()
    )
    assert isinstance(read, Ranked)
    assert read.doubt is not None
    assert read.doubt.ask == "Ours or theirs?"
    assert {choice.side for choice in read.doubt.choices if isinstance(choice, BowlRested)} == {
        "ours",
        "theirs",
    }


def test_over_a_good_link_a_bowl_without_its_owner_is_taken() -> None:
    read = Understanding(phrasebook.load()).read(heard_by_four(WITHOUT_OWNER, WITHOUT_OWNER), Expected())
    assert isinstance(read, Ranked)
    assert read.doubt is None


def test_over_a_poor_link_a_bowl_with_its_owner_is_not() -> None:
    read = Understanding(phrasebook.load()).read(heard_by_four(SAID, SAID, link="noisy"), Expected())
    assert isinstance(read, Ranked)
    assert read.doubt is None


def test_a_place_without_a_name_must_be_heard_by_all() -> None:
    place = "eighty centimetres two o'clock"
    understanding = Understanding(phrasebook.load())
    agreed = understanding.read(heard_by_four(place, place, place, place, confidence=0.7), Expected())
    assert isinstance(agreed, Ranked)
    assert agreed.doubt is None
    nearly = understanding.read(heard_by_four(place, place, place, "[unk]", confidence=0.7), Expected())
    assert isinstance(nearly, Ranked)
    assert nearly.doubt is not None


@pytest.mark.parametrize(
    ("link", "unheard_s", "taken"),
    [
        ("good", 0.1, True),
        ("noisy", 0.1, False),  # in noise, a name goes by without being noticed as speech
        ("good", 0.6, False),  # long enough for "our third": every sound of a place has a word
        ("noisy", 0.6, False),
        ("good", None, True),
        ("noisy", None, False),
    ],
)
def test_a_place_without_a_name_is_taken_where_no_speech_is_left_for_one(
    link: Link, unheard_s: float | None, taken: bool
) -> None:
    place = "eighty centimetres two o'clock"
    heard = heard_by_four(place, place, place, place, link=link).model_copy(update={"unheard_s": unheard_s})
    read = Understanding(phrasebook.load()).read(heard, Expected())
    assert isinstance(read, Ranked)
    assert (read.doubt is None) == taken
    assert taken or (read.doubt and read.doubt.ask == "Ours or theirs?")


@pytest.mark.parametrize(
    ("above_noise_db", "unheard_s", "taken"),
    [
        (10.4, 0.1, True),  # at 10 dB, speech is noticed: a name would have left some without a word
        (10.4, 0.6, False),
        (6.3, 0.1, False),
        (20.0, 0.6, False),  # however clear
    ],
)
def test_in_noise_that_does_not_drown_speech_a_name_would_have_been_noticed(
    above_noise_db: float, unheard_s: float, taken: bool
) -> None:
    place = "eighty centimetres two o'clock"
    link: Link = "good" if above_noise_db > 11 else "noisy"
    heard = heard_by_four(place, place, place, place, link=link).model_copy(
        update={"above_noise_db": above_noise_db, "unheard_s": unheard_s}
    )
    assert accepted(heard) == taken


@pytest.mark.parametrize("link", ["faint", "clipped", "narrow"])
def test_over_any_other_poor_link_it_may_be_lost_however_loud_the_rest(link: Link) -> None:
    place = "eighty centimetres two o'clock"
    heard = heard_by_four(place, place, place, place, link=link)
    assert not accepted(heard.model_copy(update={"above_noise_db": 30.0, "unheard_s": 0.1}))


def sure_so_far(probability: float, link: Link, above_noise_db: float | None) -> bool:
    """Whether a note is taken of which four decodes believe so much, and as much less another."""
    readings = [
        Hypothesis(decode=name, text=text, weight=weight)
        for name in ("one", "two", "three", "four")
        for text, weight in ((SAID, probability), (OTHER, 1 - probability))
    ]
    words = tuple(Word(text=word, confidence=0.7) for word in SAID.split())
    return accepted(
        Heard(text=SAID, words=words, readings=tuple(readings), link=link, above_noise_db=above_noise_db)
    )


@pytest.mark.parametrize(
    ("link", "above_noise_db", "least"),
    [
        ("good", 20.0, 0.80),  # 1 - 1 / (7 * 0.7), a question being 1 and a wrong note 7
        ("good", 12.0, 0.86),  # 1 - 1 / 7
        ("good", None, 0.86),
        ("noisy", 10.0, 0.86),
        ("noisy", 6.0, 0.953),  # 1 - 1 / (7 * 3)
        ("clipped", 40.0, 0.86),
    ],
)
def test_the_more_noise_the_surer_a_note_must_be(
    link: Link, above_noise_db: float | None, least: float
) -> None:
    assert sure_so_far(least + 0.01, link, above_noise_db)
    assert not sure_so_far(least - 0.01, link, above_noise_db)


@pytest.mark.parametrize("unheard_s", [0.0, 0.6])
def test_speech_without_a_word_says_nothing_against_a_bowl_with_its_owner(unheard_s: float) -> None:
    heard = heard_by_four(SAID, SAID, SAID, SAID).model_copy(update={"unheard_s": unheard_s})
    read = Understanding(phrasebook.load()).read(heard, Expected())
    assert isinstance(read, Ranked)
    assert read.doubt is None
