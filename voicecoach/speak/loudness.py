"""Loudness after ITU-R BS.1770-4, a set level for every output, and a ceiling that no sample passes.

The recommendation gives its two filters as coefficients at 48 kHz only. The analogue form below (a
shelf of 4 dB at 1682 Hz, a high-pass at 38 Hz) gives the same ones there and the right ones at other
rates. De Man derived it (2018), and pyloudnorm, which the tests compare with, uses it too.
"""

import numpy as np
from numpy.typing import NDArray

from voicecoach.speak.samples import quick
from voicecoach.speak.values import Samples

TARGET_LUFS = -22.0
"""As loud as speech gets with every peak under the ceiling, with six decibels left to turn it up."""
STEP_DB = 1.5
SOFTEST, LOUDEST = -6, 4
"""Steps either way. The loudest is as far as peaks can be turned down without anyone hearing it."""
CEILING = 10 ** (-1.0 / 20)
"""No output passes this share of full scale: 1 dB below it."""

BLOCK_S = 0.4
HOP_S = 0.1
ABSOLUTE_GATE_LUFS = -70.0
RELATIVE_GATE_LU = -10.0
OFFSET_LUFS = -0.691
SETTLING_S = 0.2
LIMITER_S = 0.005
ROUNDS = 4
"""Turning peaks down makes a sound softer, so it is measured again and turned up a little more."""
CLOSE_DB = 0.1

Coefficients = tuple[tuple[float, float, float], tuple[float, float, float]]


def _shelf(rate_hz: int) -> Coefficients:
    gain, quality, corner = 10 ** (3.999843853973347 / 20), 0.7071752369554196, 1681.974450955533
    k = np.tan(np.pi * corner / rate_hz)
    mid = gain**0.4996667741545416
    below = 1 + k / quality + k * k
    above = (gain + mid * k / quality + k * k, 2 * (k * k - gain), gain - mid * k / quality + k * k)
    return (
        (above[0] / below, above[1] / below, above[2] / below),
        (1.0, 2 * (k * k - 1) / below, (1 - k / quality + k * k) / below),
    )


def _high_pass(rate_hz: int) -> Coefficients:
    quality, corner = 0.5003270373238773, 38.13547087602444
    k = np.tan(np.pi * corner / rate_hz)
    below = 1 + k / quality + k * k
    return (1.0, -2.0, 1.0), (1.0, 2 * (k * k - 1) / below, (1 - k / quality + k * k) / below)


def _weighted(samples: Samples, rate_hz: int) -> NDArray[np.float64]:
    """The samples through both filters, by their response at each frequency."""
    length = quick(len(samples) + round(SETTLING_S * rate_hz))
    z = np.exp(-2j * np.pi * np.fft.rfftfreq(length))
    spectrum = np.fft.rfft(samples, length, axis=0)
    for above, below in (_shelf(rate_hz), _high_pass(rate_hz)):
        response = np.polyval(above[::-1], z) / np.polyval(below[::-1], z)
        spectrum = spectrum * (response if samples.ndim == 1 else response[:, None])
    weighted: NDArray[np.float64] = np.fft.irfft(spectrum, length, axis=0)[: len(samples)]
    return weighted


def _powers(samples: Samples, rate_hz: int) -> NDArray[np.float64]:
    """Mean square of each block, channels added up; a sound shorter than a block is one block."""
    squares = _weighted(samples, rate_hz) ** 2
    power = squares if squares.ndim == 1 else squares.sum(axis=1)
    block, hop = round(BLOCK_S * rate_hz), round(HOP_S * rate_hz)
    sums = np.concatenate([[0.0], np.cumsum(power)])
    if len(power) <= block:
        return np.asarray(sums[-1:] / max(1, len(power)))
    starts = np.arange(0, len(power) - block + 1, hop)
    return np.asarray((sums[starts + block] - sums[starts]) / block)


def _level(power: float) -> float:
    return OFFSET_LUFS + 10 * float(np.log10(power)) if power > 0 else -np.inf


def loudness(samples: Samples, rate_hz: int) -> float:
    """Integrated loudness, LUFS, of mono samples or of rows of left and right; minus infinity for silence."""
    powers = _powers(samples, rate_hz)
    heard = powers[powers > 10 ** ((ABSOLUTE_GATE_LUFS - OFFSET_LUFS) / 10)]
    if not len(heard):
        return -np.inf
    gate = heard.mean() * 10 ** (RELATIVE_GATE_LU / 10)
    return _level(float(heard[heard > gate].mean()))


def limit(samples: Samples, rate_hz: int, ceiling: float = CEILING) -> Samples:
    """Turn peaks down to the ceiling, smoothly and by the same amount in both ears."""
    peaks = np.abs(samples) if samples.ndim == 1 else np.abs(samples).max(axis=1)
    if not len(peaks) or peaks.max() <= ceiling:
        return samples
    window = 2 * round(LIMITER_S * rate_hz) + 1
    needed = np.minimum(1.0, ceiling / np.maximum(peaks, 1e-9))
    near = np.lib.stride_tricks.sliding_window_view(np.pad(needed, window - 1, mode="edge"), window)
    gain = np.convolve(near.min(axis=1), np.full(window, 1 / window), "valid")
    lowered = samples * (gain if samples.ndim == 1 else gain[:, None])
    return np.clip(lowered, -ceiling, ceiling).astype(np.float32)


def stepped(steps: int) -> float:
    """The target `steps` louder than usual (softer when negative), within the safe limit."""
    return TARGET_LUFS + STEP_DB * min(max(steps, SOFTEST), LOUDEST)


def levelled(samples: Samples, rate_hz: int, target_lufs: float = TARGET_LUFS) -> Samples:
    """The same sound at the target loudness, under the ceiling."""
    gain_db, level, missing_db = 0.0, limit(samples, rate_hz), target_lufs - loudness(samples, rate_hz)
    for _ in range(ROUNDS):
        if not CLOSE_DB < abs(missing_db) < np.inf:
            break
        gain_db += missing_db
        louder = (samples * 10 ** (gain_db / 20)).astype(np.float32)
        level = limit(louder, rate_hz)
        if level is louder:
            break
        missing_db = target_lufs - loudness(level, rate_hz)
    return level
