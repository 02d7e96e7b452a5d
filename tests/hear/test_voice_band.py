"""How far a voice stands above noise, where a voice is understood by: rumble neither drowns nor excuses."""

import numpy as np
import pytest

from tests.hear.conftest import AUDIO
from tests.hear.spoken import padded
from voicecoach.hear.blocks import RATE_HZ, Block, Samples
from voicecoach.hear.link import judge
from voicecoach.hear.segments import Segmenter, Utterance
from voicecoach.hear.values import DROWNED_DB
from voicecoach.hear.voice_band import IMPORTANCE, above_noise_in_voice_band_db

NOTE = AUDIO / "our_second_bowl_eighty_centimetres_two_oclock.joe.flac"
SECONDS = 3


def noise(size: int, seed: int, low_hz: float = 0, high_hz: float = 8_000) -> Samples:
    """White noise between two pitches, at a root mean square of 1."""
    spectrum = np.fft.rfft(np.random.default_rng(seed).standard_normal(size))
    hertz = np.fft.rfftfreq(size, 1 / RATE_HZ)
    spectrum[(hertz < low_hz) | (hertz > high_hz)] = 0
    sound = np.fft.irfft(spectrum, size)
    return np.asarray(sound / np.sqrt(np.mean(sound**2)), np.float32)


@pytest.fixture(scope="module")
def spoken() -> Utterance:
    """A note with next to no noise: where its speech is, is known."""
    sound = padded(NOTE)
    quiet = np.asarray(sound + noise(sound.size, 1) * 10 ** (-70 / 20), np.float32)
    (utterance,) = Segmenter().segment([Block(quiet, 0.0)])
    return utterance


def level(spoken: Utterance) -> float:
    return float(np.sqrt(np.mean(np.square(spoken.samples[spoken.samples.size // 3 :]))))


def among(spoken: Utterance, *added: Samples) -> Utterance:
    """The same speech at the same time, with noise added."""
    sound = np.asarray(spoken.samples + sum(added), np.float32)
    return Utterance(sound, spoken.started_s, spoken.ended_s, spoken.first_s)


def measured(utterance: Utterance) -> tuple[float, float]:
    quality = judge(utterance)
    assert quality.above_noise_db is not None
    assert quality.voice_above_noise_db is not None
    return quality.above_noise_db, quality.voice_above_noise_db


def test_rumble_does_not_drown_a_voice(spoken: Utterance) -> None:
    size = spoken.samples.size
    hiss = noise(size, 2) * np.float32(level(spoken) * 10 ** (-15 / 20))
    rumble = noise(size, 3, 20, 100) * np.float32(level(spoken) * 10 ** (3 / 20))
    without, within = measured(among(spoken, hiss)), measured(among(spoken, hiss, rumble))
    assert without[0] > DROWNED_DB > within[0]
    assert within[1] == pytest.approx(without[1], abs=1.0)


def test_rumble_that_comes_with_the_words_does_not_excuse_noise(spoken: Utterance) -> None:
    size = spoken.samples.size
    hiss = noise(size, 2) * np.float32(level(spoken) * 10 ** (0 / 20))
    gust = noise(size, 3, 20, 100) * np.float32(level(spoken) * 10 ** (12 / 20))
    gust[: round((spoken.started_s - spoken.first_s) * RATE_HZ)] = 0
    without, within = measured(among(spoken, hiss)), measured(among(spoken, hiss, gust))
    assert without[0] < DROWNED_DB < within[0]
    assert within[1] == pytest.approx(without[1], abs=1.0)
    assert within[1] < 0


@pytest.mark.parametrize("ratio_db", [-6, 0, 6, 12])
def test_a_voice_of_the_noises_own_colour_is_measured_as_so_many_decibels_above_it(ratio_db: int) -> None:
    before, during, voice = (noise(SECONDS * RATE_HZ, seed) for seed in (1, 2, 3))
    heard = during + voice * np.float32(10 ** (ratio_db / 20))
    assert above_noise_in_voice_band_db(before, heard) == pytest.approx(ratio_db, abs=1.5)


def test_turning_everything_up_changes_nothing() -> None:
    before, heard = noise(RATE_HZ, 1), noise(RATE_HZ, 2) * np.float32(2)
    assert above_noise_in_voice_band_db(before * np.float32(0.01), heard * np.float32(0.01)) == pytest.approx(
        above_noise_in_voice_band_db(before, heard), abs=1e-3
    )


def test_a_clear_voice_counts_for_15_and_none_at_all_for_far_less_than_nothing(spoken: Utterance) -> None:
    assert measured(spoken)[1] > 14
    assert above_noise_in_voice_band_db(noise(2 * RATE_HZ, 1), noise(2 * RATE_HZ, 2)) < -10


@pytest.mark.parametrize(("low_hz", "high_hz", "share"), [(900, 3_600, 0.52), (0, 280, 0.033)])
def test_a_band_that_is_drowned_takes_away_by_its_importance(
    low_hz: float, high_hz: float, share: float
) -> None:
    size = SECONDS * RATE_HZ
    quiet = noise(size, 1) * np.float32(0.001)
    voice = noise(size, 2)
    clear = above_noise_in_voice_band_db(quiet, voice + quiet)
    masked, again = (noise(size, seed, low_hz, high_hz) * np.float32(300) for seed in (3, 4))
    drowned = above_noise_in_voice_band_db(quiet + masked, voice + quiet + again)
    assert clear == pytest.approx(15, abs=0.01)
    # The masked bands go from 15 to about -15 (derived: 30 times their share of the importance).
    assert clear - drowned == pytest.approx(30 * share, abs=4)


def test_the_importances_are_the_standards() -> None:
    # ANSI S3.5-1997, Table 3 (quoted): the bands add up to one, and 2 kHz is worth most.
    assert sum(IMPORTANCE.values()) == pytest.approx(1)
    assert max(IMPORTANCE, key=lambda hertz: IMPORTANCE[hertz]) == 2_000
    assert (IMPORTANCE[160], IMPORTANCE[1_000], IMPORTANCE[8_000]) == (0.0083, 0.0818, 0.0185)
    assert list(IMPORTANCE) == sorted(IMPORTANCE)
