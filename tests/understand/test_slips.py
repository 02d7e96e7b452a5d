"""What one voice's words are heard as: learned from what was right, and never enough alone."""

from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from voicecoach import phrasebook
from voicecoach.hear.values import Heard, Hypothesis, Word
from voicecoach.understand.reading import Understanding
from voicecoach.understand.slips import MOST, Slip, Taught, added, taught
from voicecoach.understand.values import BowlRested, Expected, Ranked

SAID = "our fourth eighty centimetres half past two"
MEANT = BowlRested(side="ours", number=4, gap_m=0.8, hour=2.5)
OFTEN = 1_000
STRANGER = Understanding(phrasebook.load())


def heard(lines: Sequence[str]) -> Heard:
    readings = tuple(Hypothesis(decode=str(at), text=text, weight=1.0) for at, text in enumerate(lines))
    words = tuple(Word(text=word, confidence=1.0) for word in lines[0].split())
    return Heard(text=lines[0], readings=readings, words=words, above_noise_db=20.0)


def knowing(*slips: Slip) -> Understanding:
    understanding = Understanding(phrasebook.load())
    understanding.voice.slips = slips
    return understanding


def slip(heard_as: str, said: str, times: int = OFTEN, right: int = 0) -> Slip:
    return Slip(heard=heard_as, said=said, times=times, right=right)


def test_words_that_were_written_for_others_are_slips_and_lost_or_added_words_are_none() -> None:
    found = taught(
        ["our foot eighty centimetres off past two", "fourth eighty centimetres off past two"], [SAID]
    )
    assert set(found.slips) == {("foot", "fourth"), ("off", "half")}
    assert taught(["nice weather today"], [SAID]).slips == ()
    assert taught([SAID], [SAID]).slips == ()


def test_what_was_right_is_found_among_the_readings_by_what_was_meant() -> None:
    said = heard(["our foot eighty centimetres half past two", SAID])
    assert STRANGER.voice.taught(said, MEANT, Expected()).slips == (("foot", "fourth"),)
    other = MEANT.model_copy(update={"hour": 5.0})
    assert STRANGER.voice.taught(said, other, Expected()) == Taught(), "no reading means that"


def test_counts_tell_how_often_the_same_words_were_right() -> None:
    slips = added((), Taught((("eight", "eighty"),), ("our second eighty centimetres two o'clock",)))
    slips = added(slips, Taught((), ("their first eight centimetres one o'clock",)))
    assert slips == (Slip(heard="eight", said="eighty", times=1, right=1),)
    many: tuple[Slip, ...] = ()
    for number in range(MOST + 20):
        letters = "".join(chr(ord("a") + int(digit)) for digit in str(number))
        many = added(many, Taught(((letters, "two"),), ()))
    assert len(many) == MOST


def test_a_known_slip_settles_what_the_decodes_are_torn_about() -> None:
    torn = heard(
        ["our second eighty centimetres one o'clock"] * 2 + ["our second eighty centimetres nine o'clock"] * 2
    )
    before = STRANGER.read(torn, Expected())
    after = knowing(slip("one", "nine")).read(torn, Expected())
    assert isinstance(before, Ranked)
    assert before.doubt is not None
    assert isinstance(after, Ranked)
    assert after.doubt is None
    note = after.notes[0]
    assert isinstance(note, BowlRested)
    assert note.hour == 9.0


WORDS = [
    "our",
    "their",
    "fourth",
    "foot",
    "eighty",
    "eight",
    "half",
    "off",
    "past",
    "two",
    "nine",
    "one",
    "o'clock",
    "and",
]
slips_of_any_kind = st.lists(
    st.builds(
        slip,
        st.sampled_from(WORDS),
        st.sampled_from([*WORDS, "half past", "two o'clock"]),
        st.integers(1, 100_000),
        st.integers(0, 3),
    ),
    max_size=8,
).map(tuple)
LINES = [
    SAID,
    "our foot eighty centimetres half past two",
    "our fourth eight centimetres off past nine",
    "their second one metre five o'clock",
    "nice day and half past two",
    "foot eight and one",
]


@given(slips=slips_of_any_kind, line=st.sampled_from(LINES), decodes=st.integers(1, 5))
def test_whatever_was_counted_slips_alone_change_nothing(
    slips: tuple[Slip, ...], line: str, decodes: int
) -> None:
    """Where every decode heard the same words, there is no other evidence."""
    same = heard([line] * decodes)
    assert knowing(*slips).read(same, Expected()) == STRANGER.read(same, Expected())


@given(slips=slips_of_any_kind, lines=st.lists(st.sampled_from(LINES), min_size=2, max_size=5))
def test_what_is_filed_was_heard_by_a_decode_in_its_own_words(
    slips: tuple[Slip, ...], lines: list[str]
) -> None:
    read = knowing(*slips).read(heard(lines), Expected())
    if not isinstance(read, Ranked) or read.doubt is not None:
        return
    own = [STRANGER.read(heard([line]), Expected()) for line in lines]
    assert any(isinstance(one, Ranked) and read.notes[0] in one.notes for one in own)


@pytest.mark.parametrize("text", ["", "Two!", "x" * 41])
def test_a_slip_holds_words_and_nothing_else(text: str) -> None:
    with pytest.raises(ValueError, match="heard"):
        Slip(heard=text, said="two", times=1)
