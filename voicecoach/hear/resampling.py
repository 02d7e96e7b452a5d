"""Any rate and channel count in, mono at 16 kHz out, piece by piece."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from voicecoach.hear.blocks import RATE_HZ, Samples, silence
from voicecoach.sound.libraries import library

soxr = library("soxr")


class ToMono16k:
    """A stream of sound brought to mono at 16 kHz; damaged samples become silence."""

    def __init__(self, rate_hz: int) -> None:
        self._stream = (
            None if rate_hz == RATE_HZ else soxr.ResampleStream(rate_hz, RATE_HZ, 1, dtype="float32")
        )

    def process(self, samples: npt.NDArray[np.float32], last: bool = False) -> Samples:
        """Process the next piece (frames, or frames by channels) and give what is ready of it."""
        clean = sound(samples)
        mono = clean if clean.ndim == 1 else mix(clean)
        if self._stream is None:
            return mono
        # The filter overshoots at full scale.
        return sound(np.asarray(self._stream.resample_chunk(mono, last=last), dtype=np.float32))

    def rest(self) -> Samples:
        """Give what the filter still holds."""
        return silence(0) if self._stream is None else self.process(silence(0), last=True)


def mix(samples: npt.NDArray[np.float32]) -> Samples:
    """Make one channel of several: the mean of those that carry anything at all.

    A headset often fills one channel of two, and a plain mean would halve the sound.
    """
    alive = samples[:, np.any(samples != 0, axis=0)]
    if alive.shape[1] == 0:
        return np.zeros(samples.shape[0], np.float32)
    return np.asarray(alive.mean(axis=1), dtype=np.float32)


def sound(samples: Samples) -> Samples:
    """Samples without the values that no sound has: not-a-number, infinite, beyond full scale."""
    clean = np.nan_to_num(samples, nan=0.0, posinf=1.0, neginf=-1.0)
    return np.clip(clean, -1.0, 1.0).astype(np.float32, copy=False)
