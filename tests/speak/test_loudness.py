"""Loudness against ITU-R BS.1770 and a second opinion, and the ceiling that nothing passes."""

import random
from collections.abc import Iterator

import numpy as np
import pyloudnorm
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.describe.heads import picture_of, random_lays
from voicecoach.describe import Preferences, Sentence, cautions, read_back
from voicecoach.describe.values import Sentences
from voicecoach.speak import loudness, stereo
from voicecoach.speak.mouth import Mouth
from voicecoach.speak.voice import Voice

ONE_BOWL = (Sentence(text="Our second: eighty centimetres, two o'clock."),)


def second_opinion(samples: np.ndarray, rate_hz: int) -> float:
    return float(pyloudnorm.Meter(rate_hz).integrated_loudness(samples.astype(np.float64)))


def outputs() -> dict[str, Sentences]:
    """One of each sort of output."""
    picture = picture_of(random_lays(random.Random(4), 9, as_called=True))
    return {
        "one bowl": ONE_BOWL,
        "one word": (Sentence(text="Taken back: our first."),),
        "a head": read_back(picture, Preferences())[:5],
        "tersely": read_back(picture, Preferences(terse=True))[:5],
        "the cautions": cautions(short=False),
    }


# ITU-R BS.1770-4, tables 1 and 2, coefficients at 48 kHz (memory: as every implementation repeats them).
SHELF_48K = (1.53512485958697, -2.69169618940638, 1.19839281085285, -1.69065929318241, 0.73248077421585)
HIGH_PASS_48K = (1.0, -2.0, 1.0, -1.99004745483398, 0.99007225036621)


def test_both_filters_have_the_coefficients_of_the_recommendation_at_forty_eight_kilohertz() -> None:
    for made, given_ in ((loudness._shelf, SHELF_48K), (loudness._high_pass, HIGH_PASS_48K)):
        above, below = made(48_000)
        assert (*above, *below[1:]) == pytest.approx(given_, abs=1e-7)


# ITU-R BS.1770-4, annex 1 (memory): a sine at 997 Hz, 0 dB full scale, in one channel reads -3.01 LKFS.
@pytest.mark.parametrize("rate_hz", [22_050, 44_100, 48_000])
def test_a_full_tone_at_997_hertz_reads_three_below_nought(rate_hz: int) -> None:
    tone = np.sin(2 * np.pi * 997 * np.arange(2 * rate_hz) / rate_hz).astype(np.float32)
    assert loudness.loudness(tone, rate_hz) == pytest.approx(-3.01, abs=0.03)


@pytest.fixture(scope="module")
def voice() -> Iterator[Voice]:
    with Voice() as speaking:
        yield speaking


@pytest.mark.parametrize("placed", [False, True])
@pytest.mark.parametrize("sort", list(outputs()))
def test_every_output_is_within_one_decibel_of_its_target(sort: str, placed: bool, voice: Voice) -> None:
    sound = Mouth(voice=voice, silent=True, placed=placed).render(outputs()[sort])
    assert second_opinion(sound.samples, sound.rate_hz) == pytest.approx(loudness.TARGET_LUFS, abs=1.0)
    assert np.abs(sound.samples).max() <= loudness.CEILING


@pytest.mark.parametrize("placed", [False, True])
@pytest.mark.parametrize("volume", [loudness.SOFTEST, -1, 1, loudness.LOUDEST])
def test_louder_and_softer_move_the_target_and_the_output_with_it(
    volume: int, placed: bool, voice: Voice
) -> None:
    mouth = Mouth(voice=voice, silent=True, placed=placed)
    mouth.adjust(volume=volume)
    sound = mouth.render(ONE_BOWL)
    wanted = loudness.TARGET_LUFS + volume * loudness.STEP_DB
    assert second_opinion(sound.samples, sound.rate_hz) == pytest.approx(wanted, abs=1.0)
    assert np.abs(sound.samples).max() <= loudness.CEILING


@pytest.mark.parametrize("rate", [-5, 5])
def test_a_slow_and_a_fast_voice_are_as_loud_as_the_usual_one(rate: int, voice: Voice) -> None:
    mouth = Mouth(voice=voice, silent=True)
    mouth.adjust(rate=rate)
    sound = mouth.render(ONE_BOWL)
    mouth.adjust()
    assert second_opinion(sound.samples, sound.rate_hz) == pytest.approx(loudness.TARGET_LUFS, abs=1.0)


def test_the_sound_picture_is_within_one_decibel_of_its_target() -> None:
    sound = stereo.picture([(0.5, -1.0), (0.0, 0.0), (-1.0, 0.4)], ["ours", "jack", "theirs"])
    assert second_opinion(sound.samples, sound.rate_hz) == pytest.approx(loudness.TARGET_LUFS, abs=1.0)


def test_more_than_the_loudest_step_is_no_louder() -> None:
    assert loudness.stepped(99) == loudness.stepped(loudness.LOUDEST)
    assert loudness.stepped(-99) == loudness.stepped(loudness.SOFTEST)


def test_silence_is_left_as_it_is() -> None:
    assert not loudness.levelled(np.zeros(5_000, np.float32), 22_050).any()
    assert len(loudness.levelled(np.zeros(0, np.float32), 22_050)) == 0


@settings(max_examples=25, deadline=None)
@given(
    seed=st.integers(0, 2**32 - 1),
    seconds=st.floats(0.01, 0.8),
    target=st.floats(-40, 20),
    peaky=st.floats(0.0, 1.0),
    channels=st.sampled_from([1, 2]),
)
def test_whatever_the_sound_and_the_target_no_sample_passes_the_ceiling(
    seed: int, seconds: float, target: float, peaky: float, channels: int
) -> None:
    chance = np.random.default_rng(seed)
    samples = chance.standard_normal((round(22_050 * seconds), channels)).astype(np.float32)
    samples *= chance.random(samples.shape) > peaky
    samples[0] = 50.0
    level = loudness.levelled(samples if channels == 2 else samples[:, 0], 22_050, target)
    assert np.abs(level).max() <= loudness.CEILING
    assert np.isfinite(level).all()
