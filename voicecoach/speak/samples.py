"""Simple work on samples: cut silence off the ends, change the rate, leave gaps."""

import numpy as np

from voicecoach.sound.libraries import library
from voicecoach.speak.values import Samples

soxr = library("soxr")

QUIET = 10 ** (-50 / 20)
EDGE_S = 0.005
"""What is kept beyond the first and last sample that can be heard, so that no word begins with a click."""


def trim(samples: Samples, rate_hz: int) -> Samples:
    """Cut silence off both ends."""
    loud = np.flatnonzero(np.abs(samples) > QUIET)
    if not len(loud):
        return samples[:0]
    edge = round(EDGE_S * rate_hz)
    return samples[max(0, loud[0] - edge) : loud[-1] + 1 + edge]


def silence(seconds: float, rate_hz: int) -> Samples:
    """Silence of this length."""
    return np.zeros(max(0, round(seconds * rate_hz)), np.float32)


def join(parts: list[Samples]) -> Samples:
    """One after the other."""
    return np.concatenate(parts) if parts else np.zeros(0, np.float32)


def resample(samples: Samples, from_hz: int, to_hz: int) -> Samples:
    """The same sound at another rate."""
    if from_hz == to_hz or not len(samples):
        return samples
    return np.asarray(soxr.resample(samples, from_hz, to_hz), np.float32)


def quick(length: int) -> int:
    """A length that is at least this one and quick to transform: a multiple of 4096."""
    return -(-length // 4096) * 4096
