"""What noises are made of: colours, swells, drops and engines, drawn with dice; 16 kHz."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from voicecoach.hear.blocks import RATE_HZ, Samples

Dice = np.random.Generator


def rms(sound: npt.NDArray[np.floating]) -> float:
    """Root mean square; 1 for silence, so that it may be divided by."""
    return float(np.sqrt(np.mean(np.square(sound, dtype=np.float64)))) or 1.0


def even(sound: npt.NDArray[np.floating]) -> Samples:
    """The sound at a root mean square of 1."""
    return np.asarray(sound / rms(sound), np.float32)


def coloured(size: int, dice: Dice, slope: float, low_hz: float, high_hz: float) -> Samples:
    """Steady noise between two corners, its amplitude going with this power of frequency in between.

    Args:
        size: How many samples.
        dice: What it is drawn with.
        slope: 0 is white, -0.5 pink, -1 brown.
        low_hz: Below, it falls by 24 dB an octave.
        high_hz: Above, it falls by 18 dB an octave.
    """
    spectrum = np.fft.rfft(dice.standard_normal(size))
    hertz = np.maximum(np.fft.rfftfreq(size, 1 / RATE_HZ), 5.0)
    spectrum *= hertz**slope / (1 + (low_hz / hertz) ** 4) / (1 + (hertz / high_hz) ** 3)
    return even(np.fft.irfft(spectrum, size))


def swell(size: int, dice: Dice, per_s: float, depth_db: float) -> Samples:
    """A gain that wanders by so many decibels, a new level so many times a second."""
    points = max(4, int(size / RATE_HZ * per_s) + 3)
    levels_db = depth_db * dice.standard_normal(points)
    times = np.linspace(dice.random(), points - 1 - dice.random(), size)
    return np.asarray(10 ** (np.interp(times, np.arange(points), levels_db) / 20), np.float32)


def drops(size: int, dice: Dice, per_s: float, ring_hz: tuple[float, float], ring_s: float) -> Samples:
    """Hits at random times, some louder than others, each ringing at a pitch of its own."""
    sound = np.zeros(size + RATE_HZ, np.float32)
    times = np.arange(round(5 * ring_s * RATE_HZ)) / RATE_HZ
    for start in dice.integers(0, size, max(1, dice.poisson(per_s * size / RATE_HZ))):
        pitch = np.sin(2 * np.pi * dice.uniform(*ring_hz) * times + dice.uniform(0, 6.28))
        hit = dice.lognormal(0, 0.8) * np.exp(-times / (ring_s * dice.uniform(0.5, 1.5)))
        sound[start : start + times.size] += np.asarray(
            hit * (pitch + 0.3 * dice.standard_normal(times.size))
        )
    return even(sound[:size])


def engine(size: int, dice: Dice, rate_hz: npt.ArrayLike, falls: float, harmonics: int) -> Samples:
    """Harmonics of a firing rate, which may change; each falls off by this power of its number."""
    rates = np.asarray(rate_hz, np.float64)
    phase = 2 * np.pi * np.cumsum(np.broadcast_to(rates, (size,))) / RATE_HZ
    sound = np.zeros(size)
    highest = float(np.max(rates))
    for number in range(1, min(harmonics, int(7_500 / highest)) + 1):
        share = dice.lognormal(0, 0.5) / number**falls
        sound += share * np.sin(number * phase + dice.uniform(0, 6.28))
    return even(sound)


def wandering(size: int, dice: Dice, around: float, share: float) -> Samples:
    """A figure that wanders by about this share of itself in a few seconds."""
    walk = np.cumsum(dice.standard_normal(size)) / np.sqrt(size)
    return np.asarray(around * np.exp(share * walk), np.float32)


def room(sound: Samples, dice: Dice, decay_s: float, first_s: float, under_db: float) -> Samples:
    """The sound with a room's echoes, so many decibels under it, the first after so long."""
    count = round(decay_s * RATE_HZ)
    echo = dice.standard_normal(count) * np.exp(-6.9 * np.arange(count) / count)
    echo[: round(first_s * RATE_HZ)] = 0
    size = 1 << int(np.ceil(np.log2(sound.size + count)))
    wet = np.fft.irfft(np.fft.rfft(sound, size) * np.fft.rfft(echo, size), size)[: sound.size]
    return np.asarray(sound + wet / rms(wet) * rms(sound) * 10 ** (-under_db / 20), np.float32)
