"""Sound on its way to the recogniser: mono, 16 kHz, in blocks of one length."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

RATE_HZ = 16_000
"""The rate that the speech model was trained on; vosk raises at 8 kHz."""
BLOCK = 512
"""Samples in a block: the only length that the voice detector takes (32 ms)."""
BLOCK_S = BLOCK / RATE_HZ

Samples = npt.NDArray[np.float32]


@dataclass(frozen=True)
class Block:
    """A piece of mono sound at 16 kHz; full scale is 1."""

    samples: Samples
    at_s: float
    """When its first sample was heard, seconds on the audio clock."""


def silence(seconds: float) -> Samples:
    """Samples of nothing."""
    return np.zeros(round(seconds * RATE_HZ), np.float32)


class Evener:
    """Cuts blocks of any length into blocks of 512, so that their length changes nothing."""

    def __init__(self) -> None:
        self._kept: Samples = silence(0)

    def regroup(self, block: Block) -> Iterator[Block]:
        """Give the whole blocks of 512 that are complete now."""
        samples = np.concatenate([self._kept, block.samples]) if self._kept.size else block.samples
        first_s = block.at_s - self._kept.size / RATE_HZ
        whole = samples.size // BLOCK * BLOCK
        for start in range(0, whole, BLOCK):
            yield Block(samples[start : start + BLOCK], first_s + start / RATE_HZ)
        self._kept = samples[whole:]

    def rest(self, at_s: float) -> Iterator[Block]:
        """Give what is kept back, filled up with silence; `at_s` is where the sound ended."""
        if self._kept.size:
            filled = np.concatenate([self._kept, np.zeros(BLOCK - self._kept.size, np.float32)])
            yield Block(filled, at_s - self._kept.size / RATE_HZ)
        self._kept = silence(0)


def even(blocks: Iterable[Block]) -> Iterator[Block]:
    """Cut a stream into blocks of 512 samples, and fill the last one up with silence."""
    evener, ended_s = Evener(), 0.0
    for block in blocks:
        yield from evener.regroup(block)
        ended_s = block.at_s + block.samples.size / RATE_HZ
    yield from evener.rest(ended_s)
