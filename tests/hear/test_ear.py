"""Streams of sound through the whole ear."""

from pathlib import Path

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.hear.conftest import AUDIO
from tests.hear.spoken import padded, stream, words_of
from voicecoach import phrasebook
from voicecoach.hear.blocks import RATE_HZ, Block, Samples, even
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.recordings import blocks
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Expected, Ranked

TWO = (
    AUDIO / "their_first_bowl_one_metre_four_oclock.slt.flac",
    AUDIO / "our_second_bowl_eighty_centimetres_two_oclock.joe.flac",
)


def two_notes() -> Samples:
    return np.concatenate([padded(path) for path in TWO])


def test_two_notes_come_out_in_order_with_their_times(recogniser: Recogniser) -> None:
    found = list(Ear(recogniser).listen(stream(two_notes(), [512]), "green.wav"))
    assert [heard.text for heard in found] == [words_of(path) for path in TWO]
    assert {heard.source for heard in found} == {"green.wav"}
    (first, second) = found
    assert first.started_s == pytest.approx(0.6, abs=0.35)
    assert second.started_s is not None
    assert first.ended_s is not None
    assert first.ended_s < second.started_s - 1


@settings(
    max_examples=4,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(sizes=st.lists(st.integers(1, 9_000), min_size=1, max_size=5))
def test_the_length_of_the_blocks_changes_nothing(sizes: list[int], recogniser: Recogniser) -> None:
    usual = list(Ear(recogniser).listen(stream(padded(TWO[1]), [512]), "x"))
    assert (
        list(Ear(recogniser).listen(stream(padded(TWO[1]), [max(64, size) for size in sizes]), "x")) == usual
    )


@settings(deadline=None, derandomize=True)
@given(sizes=st.lists(st.integers(16, 3_000), min_size=1, max_size=5), count=st.integers(0, 20_000))
def test_evened_blocks_are_the_same_sound_at_the_same_times(sizes: list[int], count: int) -> None:
    samples = np.arange(count, dtype=np.float32)
    found = list(even(stream(samples, sizes)))
    assert {block.samples.size for block in found} <= {512}
    joined = np.concatenate([block.samples for block in found]) if found else samples
    assert np.array_equal(joined[:count], samples)
    assert not joined[count:].any()
    assert all(abs(block.at_s - index * 0.032) < 1e-6 for index, block in enumerate(found))


@pytest.mark.parametrize(
    "name", ["no_five_oclock.slt", "take_that_back.rms", "their_first_bowl_one_metre_four_oclock.slt"]
)
def test_a_recording_that_begins_and_ends_with_speech_loses_no_word(
    name: str, recogniser: Recogniser
) -> None:
    path = AUDIO / f"{name}.flac"
    assert [heard.text for heard in Ear(recogniser).listen(blocks(path), "x")] == [words_of(path)]


def test_a_note_that_is_whole_is_given_sooner(recogniser: Recogniser, second_bowl: Path) -> None:
    assert (
        given_at(Ear(recogniser, lambda text: True), second_bowl)
        < given_at(Ear(recogniser, lambda text: False), second_bowl) - 0.3
    )


def given_at(ear: Ear, path: Path) -> float:
    """When on the audio clock the first note is given."""
    for block in stream(padded(path), [512]):
        if any(True for _ in ear.hear_block(block, "x")):
            return ear.clock_s
    raise AssertionError("nothing was heard")


def test_silence_gives_nothing(recogniser: Recogniser) -> None:
    hiss = np.random.default_rng(2).normal(0, 3e-4, 160_000).astype(np.float32)
    assert list(Ear(recogniser).listen([Block(hiss, 0.0)], "x")) == []


def test_a_fresh_stream_forgets_the_one_before(recogniser: Recogniser, second_bowl: Path) -> None:
    ear = Ear(recogniser)
    cut = padded(second_bowl)[:20_000]
    for block in stream(cut, [512]):
        list(ear.hear_block(block, "x"))
    assert [heard.text for heard in ear.listen(stream(padded(second_bowl), [512]), "x")] == [
        words_of(second_bowl)
    ]


def muffled(sound: Samples, hertz: int = 400) -> Samples:
    """Only the pitch of a voice is left, as behind a hand: it is speech, but no words."""
    spectrum = np.fft.rfft(sound)
    spectrum[np.fft.rfftfreq(sound.size, 1 / RATE_HZ) > hertz] = 0
    return np.asarray(np.fft.irfft(spectrum, sound.size), np.float32)


def test_a_name_that_was_said_but_not_heard_leaves_speech_without_a_word(recogniser: Recogniser) -> None:
    note = padded(TWO[1])
    (whole,) = Ear(recogniser).listen(stream(note, [512]), "x")
    assert whole.unheard_s is not None
    assert whole.unheard_s < 0.2
    name = round((0.6 + 0.85) * RATE_HZ)
    lost = np.concatenate([muffled(note[:name]), note[name:]])
    (place,) = Ear(recogniser).listen(stream(lost, [512]), "x")
    assert place.text == "eighty centimetres two o'clock"
    assert place.unheard_s is not None
    assert place.unheard_s > 0.5
    read = Understanding(phrasebook.load()).read(place, Expected())
    assert isinstance(read, Ranked)
    assert read.doubt is not None
    assert read.doubt.ask == "Ours or theirs?"
