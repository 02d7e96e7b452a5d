"""What is done to the sound before a decode: noise is turned down, a little or more, or it is also slowed."""

from __future__ import annotations

from typing import Literal, Protocol

import numpy as np

from voicecoach.hear.blocks import RATE_HZ, Samples, silence
from voicecoach.hear.gate import NoiseGate
from voicecoach.sound.libraries import library

soxr = library("soxr")

Front = Literal["plain", "gated", "gated harder", "gated and slower"]
_SLOWER = 0.92
"""Slow enough to bring other mistakes than the sound at its own speed, too little to spoil it."""


class Stage(Protocol):
    """Takes samples and gives samples; at the end it gives the rest of them."""

    def process(self, samples: Samples) -> Samples:
        """Process the next samples and give what is ready."""
        ...

    def rest(self) -> Samples:
        """Give what was kept back."""
        ...


class Plain:
    """Leaves the sound as it is."""

    def process(self, samples: Samples) -> Samples:
        """Give back the same samples."""
        return samples

    def rest(self) -> Samples:
        """Nothing is ever kept back."""
        return silence(0)


class Slower:
    """Plays the sound slower, and so at a lower pitch."""

    def __init__(self) -> None:
        self._stream = soxr.ResampleStream(RATE_HZ * _SLOWER, RATE_HZ, 1, dtype="float32", quality="MQ")

    def process(self, samples: Samples) -> Samples:
        """Give what the filter has ready."""
        return np.asarray(self._stream.resample_chunk(samples), dtype=np.float32)

    def rest(self) -> Samples:
        """Give what the filter still holds."""
        return np.asarray(self._stream.resample_chunk(silence(0), last=True), dtype=np.float32)


class Both:
    """One stage after another."""

    def __init__(self, first: Stage, second: Stage) -> None:
        self._first = first
        self._second = second

    def process(self, samples: Samples) -> Samples:
        """Give what the second makes of what the first has ready."""
        return self._second.process(self._first.process(samples))

    def rest(self) -> Samples:
        """Give what both still hold."""
        return np.concatenate([self._second.process(self._first.rest()), self._second.rest()])


def front_of(name: Front) -> Stage:
    """A fresh front of this name, for one utterance."""
    if name == "plain":
        return Plain()
    gate = NoiseGate(harder=name == "gated harder")
    return Both(gate, Slower()) if name == "gated and slower" else gate
