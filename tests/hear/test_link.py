"""A microphone that is too far, too loud, drowned out or on the telephone is told apart from a good one."""

from collections.abc import Callable

import numpy as np
import pytest
import soxr

from tests.hear.conftest import AUDIO
from tests.hear.spoken import padded
from voicecoach.hear.blocks import RATE_HZ, Block, Samples
from voicecoach.hear.link import judge
from voicecoach.hear.link_watch import LinkWatch
from voicecoach.hear.segments import Segmenter, Utterance
from voicecoach.hear.values import Link


def note() -> Samples:
    return padded(AUDIO / "our_second_bowl_eighty_centimetres_two_oclock.joe.flac")


def hiss(size: int, level_db: float) -> Samples:
    return np.random.default_rng(3).normal(0, 10 ** (level_db / 20), size).astype(np.float32)


def good(sound: Samples) -> Samples:
    return sound + hiss(sound.size, -60)


def clipped(sound: Samples) -> Samples:
    return np.clip(sound * 12, -1, 1)


def faint(sound: Samples) -> Samples:
    return sound * 0.02 + hiss(sound.size, -80)


def noisy(sound: Samples) -> Samples:
    return sound + hiss(sound.size, -29)


def narrow(sound: Samples) -> Samples:
    return np.resize(soxr.resample(soxr.resample(sound, RATE_HZ, 8_000), 8_000, RATE_HZ), sound.size)


def breaking_off(sound: Samples) -> Samples:
    """A radio link that loses a piece eight times in a note: each loss clicks."""
    dice = np.random.default_rng(1)
    broken: Samples = sound.copy()
    for at in dice.integers(sound.size - 1_500, size=8):
        broken[at : at + dice.integers(200, 1_500)] = 0
    return broken


@pytest.mark.parametrize(
    ("link", "change"),
    [
        ("good", good),
        ("good", lambda sound: breaking_off(good(sound))),
        ("clipped", clipped),
        ("faint", faint),
        ("noisy", noisy),
        ("narrow", narrow),
        ("narrow", lambda sound: breaking_off(narrow(sound))),
    ],
)
def test_each_fault_is_named(link: Link, change: Callable[[Samples], Samples]) -> None:
    sound = change(note()).astype(np.float32)
    assert {judge(one).link for one in Segmenter().segment([Block(sound, 0.0)])} == {link}


@pytest.mark.parametrize("ratio_db", [5.0, 10.0, 20.0])
def test_how_far_speech_stands_above_noise_is_measured(ratio_db: float) -> None:
    spoken = note()
    speech = spoken[np.abs(spoken) > 0]
    level_db = 10 * float(np.log10(np.mean(np.square(speech, dtype=np.float64))))
    sound = (spoken + hiss(spoken.size, level_db - ratio_db)).astype(np.float32)
    (heard,) = Segmenter().segment([Block(sound, 0.0)])
    noise_too_db = 10 * np.log10(1 + 10 ** (-ratio_db / 10))  # what is measured as speech has the noise in it
    assert judge(heard).above_noise_db == pytest.approx(ratio_db + noise_too_db, abs=1.0)


def test_digital_silence_before_speech_is_measured_as_the_most_that_a_link_carries() -> None:
    (heard,) = Segmenter().segment([Block(note(), 0.0)])
    assert judge(heard).above_noise_db == 60.0


@pytest.mark.parametrize(("noise_db", "above_noise_db"), [(-90.0, 60.0), (-36.0, 10.0)])
def test_a_soft_sound_just_before_speech_is_noticed_is_noise_only_where_there_is_some(
    noise_db: float, above_noise_db: float
) -> None:
    parts = [hiss(8_000, noise_db), hiss(1_600, -32), hiss(1_024, noise_db), hiss(RATE_HZ, -25)]
    said = Utterance(np.concatenate(parts), started_s=0.664, ended_s=1.664, first_s=0.0)
    assert judge(said).above_noise_db == pytest.approx(above_noise_db, abs=0.5)


def test_in_a_crowd_that_is_taken_for_speech_nothing_is_measured() -> None:
    spoken = note()[RATE_HZ:]  # cut so that speech is there at once
    starts = int(np.flatnonzero(np.abs(spoken) > 0.02)[0])
    (heard,) = Segmenter().segment([Block(spoken[starts:], 0.0)])
    assert judge(heard).above_noise_db is None


def test_one_poor_utterance_is_no_reason_to_speak() -> None:
    watch = LinkWatch()
    assert [watch.warning(link) for link in ("good", "noisy", "good", "noisy", "good")] == [None] * 5


def test_a_poor_link_is_told_once_and_again_only_after_it_was_good() -> None:
    watch = LinkWatch()
    assert [watch.warning("noisy") for _ in range(6)] == [None, None, "noisy", None, None, None]
    assert [watch.warning("good") for _ in range(4)] == [None] * 4
    assert [watch.warning("noisy") for _ in range(3)] == [None, None, "noisy"]


def test_noise_in_which_no_note_is_said_is_not_spoken_of_in_its_first_minute() -> None:
    watch = LinkWatch()
    first = [watch.warning("noisy", note=False, at_s=float(at_s)) for at_s in range(0, 60, 4)]
    assert first == [None] * 15
    later = [watch.warning("noisy", note=False, at_s=float(at_s)) for at_s in range(60, 80, 4)]
    assert later == [None, None, "noisy", None, None]


def test_a_note_or_a_good_link_ends_the_minute() -> None:
    sides: tuple[tuple[Link, bool], ...] = (("good", False), ("noisy", True))
    for link, is_note in sides:
        watch = LinkWatch()
        watch.warning("noisy", note=False, at_s=0.0)
        watch.warning(link, note=is_note, at_s=50.0)
        assert [watch.warning("noisy", note=False, at_s=at_s) for at_s in (61.0, 70.0, 110.0)] == [None] * 3
