"""The spectral gate turns steady noise down and leaves speech alone."""

import numpy as np
import pytest

from tests.hear.conftest import AUDIO
from voicecoach.hear.blocks import Samples, silence
from voicecoach.hear.gate import NoiseGate
from voicecoach.hear.recordings import load


def gated(sound: Samples, piece: int = 2_048) -> Samples:
    gate = NoiseGate()
    parts = [gate.process(sound[start : start + piece]) for start in range(0, sound.size, piece)]
    return np.concatenate([*parts, gate.rest()])[: sound.size]


def hiss(seconds: float, level: float = 0.02) -> Samples:
    return (np.random.default_rng(5).normal(0, level, int(seconds * 16_000))).astype(np.float32)


def rms(sound: Samples) -> float:
    return float(np.sqrt(np.mean(sound**2)))


def test_steady_noise_is_turned_down_by_nearly_half() -> None:
    noise = hiss(2)
    assert rms(gated(noise)[8_000:]) < 0.6 * rms(noise)


def test_speech_in_silence_comes_through_as_it_was() -> None:
    speech = np.concatenate([silence(0.5), load(AUDIO / "five_oclock.joe.flac"), silence(0.2)])
    assert rms(gated(speech) - speech) < 0.12 * rms(speech)


def test_speech_in_noise_stands_out_more_than_before() -> None:
    speech = load(AUDIO / "five_oclock.joe.flac")
    noise = hiss(1 + speech.size / 16_000)
    sound = noise.copy()
    sound[16_000 : 16_000 + speech.size] += speech[: noise.size - 16_000]
    through = gated(sound)
    before = rms(sound[16_000:]) / rms(sound[8_000:15_000])
    assert rms(through[16_000:]) / rms(through[8_000:15_000]) > 1.5 * before


@pytest.mark.parametrize("piece", [128, 1_000, 4_096])
def test_the_length_of_the_pieces_changes_nothing(piece: int) -> None:
    sound = hiss(1)
    assert np.allclose(gated(sound, piece), gated(sound), atol=1e-6)
