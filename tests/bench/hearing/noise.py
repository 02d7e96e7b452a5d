"""What lies between a mouth and the recogniser: wind, mowers, talk, halls and poor links, by script.

The conditions `weather` and `poor link` are drawn anew for every clip from the families of its part; the
others are one script each, as they were before there were families.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal, get_args

import numpy as np
import soxr

from tests.bench.hearing.lines import Part
from tests.bench.hearing.poor_links import drawn_link
from tests.bench.hearing.speech_level import active_level
from tests.bench.hearing.weather import weather
from voicecoach.hear.blocks import RATE_HZ, Samples

Condition = Literal[
    "clean",
    "weather 20 dB",
    "weather 10 dB",
    "weather 5 dB",
    "poor link",
    "outdoors 20 dB",
    "outdoors 10 dB",
    "outdoors 5 dB",
    "outdoors 0 dB",
    "babble 20 dB",
    "babble 10 dB",
    "hall",
    "narrow band",
    "clipped",
    "faint",
]
CONDITIONS: tuple[Condition, ...] = get_args(Condition)
LEAD_S = 0.8
TAIL_S = 1.6
"""Sound before and after the speech: the noise alone, as a live microphone gives it."""


def heard_through(
    speech: Samples,
    condition: Condition,
    rng: np.random.Generator,
    talk: list[Samples],
    part: Part = "scored",
) -> Samples:
    """The speech as it reaches the program.

    Args:
        speech: A voice, without the silence round it.
        condition: What it goes through. "10 dB" is how far its active level (ITU-T P.56) lies above the root
            mean square of the noise, whatever pitches that has.
        rng: Dice; the same give the same sound.
        talk: Other people's, for babble.
        part: Whose families of weather and of links may be drawn.

    Raises:
        ValueError: There is no speech in it.
    """
    sound = np.concatenate([_nothing(LEAD_S), speech, _nothing(TAIL_S)])
    level = float(10 ** (active_level(speech).active_db / 20))
    name, *figures = condition.split()
    if name == "weather":
        return _whole(sound + _at(weather(part, sound.size, rng, talk), level, float(figures[0])))
    if name == "poor":
        windy = sound + _at(weather(part, sound.size, rng, talk), level, 25)
        return _whole(drawn_link(part, rng)(windy, level, rng))
    if name == "babble":
        return _whole(sound + _at(babble(sound.size, rng, talk), level, float(figures[0])))
    if name == "outdoors":
        return _whole(sound + _at(outdoors(sound.size, rng), level, float(figures[0])))
    return _whole(_LINKS[name](sound, level, rng))


def _clean(sound: Samples, level: float, rng: np.random.Generator) -> Samples:
    return _whole(sound + _at(pink(sound.size, rng), level, 50))


def _hall(sound: Samples, level: float, rng: np.random.Generator) -> Samples:
    return _whole(hall(sound, rng) + _at(pink(sound.size, rng), level, 25))


def _narrow(sound: Samples, level: float, rng: np.random.Generator) -> Samples:
    return narrow(sound + _at(outdoors(sound.size, rng), level, 25))


def _clipped(sound: Samples, level: float, rng: np.random.Generator) -> Samples:
    """Turned up until the voice's usual level is near full scale: every loud sound is cut flat."""
    return _whole(np.clip(sound / level * 0.6, -1, 1) + _at(pink(sound.size, rng), 0.3, 30))


def _faint(sound: Samples, level: float, rng: np.random.Generator) -> Samples:
    """Turned down until little is left above the steps of sixteen bits and the microphone's hiss."""
    quiet = np.asarray(sound / level * 10 ** (-55 / 20), np.float32)
    noisy = _whole(quiet + _at(pink(sound.size, rng), 10 ** (-55 / 20), 12))
    return np.asarray(np.round(noisy * 32_767) / 32_767, np.float32)


_LINKS: dict[str, Callable[[Samples, float, np.random.Generator], Samples]] = {
    "clean": _clean,
    "hall": _hall,
    "narrow": _narrow,
    "clipped": _clipped,
    "faint": _faint,
}


def outdoors(size: int, rng: np.random.Generator) -> Samples:
    """Wind in gusts, a mower two rinks off, and leaves, in changing shares."""
    wind = shaped(size, rng, -1.0) * gusts(size, rng)
    leaves = shaped(size, rng, -0.5) * (0.6 + 0.4 * gusts(size, rng))
    shares = rng.dirichlet((2.0, 1.5, 2.0))
    parts = (wind, mower(size, rng), leaves)
    mixed = sum(share * part / _rms(part) for share, part in zip(shares, parts, strict=True))
    return high_passed(np.asarray(mixed, np.float32), 100)


def gusts(size: int, rng: np.random.Generator) -> Samples:
    """A slow swell between about 0 and 1, a new level about twice a second."""
    points = max(4, int(size / RATE_HZ * 2) + 2)
    levels = rng.random(points) ** 2
    return np.asarray(np.interp(np.linspace(0, points - 1, size), np.arange(points), levels), np.float32)


def mower(size: int, rng: np.random.Generator) -> Samples:
    """An engine: harmonics of a firing rate that wanders, and the hiss of its blades."""
    rate = rng.uniform(45, 90) * (1 + 0.02 * np.cumsum(rng.standard_normal(size)) / np.sqrt(size))
    phase = 2 * np.pi * np.cumsum(rate) / RATE_HZ
    tones = sum(np.sin(k * phase + rng.uniform(0, 6.28)) / k**0.8 for k in range(1, 30))
    return np.asarray(tones / _rms(np.asarray(tones)) + 0.5 * shaped(size, rng, -0.5), np.float32)


def pink(size: int, rng: np.random.Generator) -> Samples:
    """Noise of equal power in every octave."""
    return shaped(size, rng, -0.5)


def shaped(size: int, rng: np.random.Generator, slope: float) -> Samples:
    """Noise whose amplitude falls with this power of frequency, at a root mean square of 1."""
    spectrum = np.fft.rfft(rng.standard_normal(size))
    hertz = np.fft.rfftfreq(size, 1 / RATE_HZ)
    spectrum *= np.maximum(hertz, 20) ** slope
    sound = np.fft.irfft(spectrum, size)
    return np.asarray(sound / _rms(sound), np.float32)


def babble(size: int, rng: np.random.Generator, talk: list[Samples]) -> Samples:
    """Six people talking at once."""
    mixed = np.zeros(size, np.float32)
    for _ in range(6):
        line = np.concatenate([talk[index] for index in rng.integers(0, len(talk), 6)])
        start = int(rng.integers(0, max(1, line.size // 2)))
        piece = np.resize(line[start:], size)
        mixed += piece / _rms(piece)
    return mixed


def hall(sound: Samples, rng: np.random.Generator, decay_s: float = 0.9) -> Samples:
    """A large indoor green: the room's echoes 3 dB under the voice at the earpiece's microphone."""
    count = int(decay_s * RATE_HZ)
    echo = rng.standard_normal(count) * np.exp(-6.9 * np.arange(count) / count)
    echo[: int(0.004 * RATE_HZ)] = 0
    size = 1 << int(np.ceil(np.log2(sound.size + count)))
    wet = np.fft.irfft(np.fft.rfft(sound, size) * np.fft.rfft(echo, size), size)[: sound.size]
    return np.asarray(sound + wet / _rms(wet) * _rms(sound) * 10 ** (-3 / 20), np.float32)


def narrow(sound: Samples) -> Samples:
    """A telephone-grade headset link: 300 to 3,400 Hz, eight bits on a logarithmic scale."""
    low = soxr.resample(high_passed(sound, 300), RATE_HZ, 8_000)
    squeezed = np.sign(low) * np.log1p(255 * np.minimum(np.abs(low), 1)) / np.log(256)
    steps = np.round(squeezed * 127) / 127
    opened = np.sign(steps) * np.expm1(np.abs(steps) * np.log(256)) / 255
    back = soxr.resample(opened, 8_000, RATE_HZ)
    return np.asarray(np.resize(back, sound.size), np.float32)


def high_passed(sound: Samples, hertz: float) -> Samples:
    """The sound without what lies below."""
    spectrum = np.fft.rfft(sound)
    ratio = np.fft.rfftfreq(sound.size, 1 / RATE_HZ) / hertz
    return np.asarray(np.fft.irfft(spectrum * ratio**2 / (1 + ratio**2), sound.size), np.float32)


def _at(noise: Samples, level: float, decibels: float) -> Samples:
    """The noise at so many decibels under the level of the speech."""
    return np.asarray(noise / _rms(noise) * level * 10 ** (-decibels / 20), np.float32)


def _rms(sound: np.ndarray) -> float:
    return float(np.sqrt(np.mean(np.square(sound)))) or 1.0


def _whole(sound: np.ndarray) -> Samples:
    return np.asarray(np.clip(sound, -1, 1), np.float32)


def _nothing(seconds: float) -> Samples:
    return np.zeros(round(seconds * RATE_HZ), np.float32)
