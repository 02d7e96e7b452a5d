"""Notices endless noise as loud as a voice, in which no note can be heard."""

from __future__ import annotations

import numpy as np

from voicecoach.hear.blocks import RATE_HZ, Block

LOUD_DB = -30.0
"""Noise of this level is about as loud as speech into an earpiece microphone, decibels below full scale."""
LASTS_S = 90.0
"""How long it must last before it is told, seconds: noise alone isn't spoken of in its first minute."""


class NoiseWatch:
    """Notices, once each time, that a microphone gives nothing but loud noise."""

    def __init__(self) -> None:
        self._power: list[float] = []
        self._samples = 0
        self._since_s: float | None = None
        self._told = False

    def words_came(self) -> None:
        """Words were heard, so there is more than noise."""
        self._since_s, self._told = None, False

    def measure(self, block: Block) -> bool:
        """True when loud noise has just lasted too long; false again until it has stopped."""
        self._power.append(float(np.sum(np.square(block.samples, dtype=np.float64))))
        self._samples += block.samples.size
        if self._samples < RATE_HZ:
            return False
        loud = sum(self._power) / self._samples > 10 ** (LOUD_DB / 10)
        self._power, self._samples = [], 0
        return self._second(block.at_s, loud=loud)

    def _second(self, at_s: float, *, loud: bool) -> bool:
        if not loud:
            self.words_came()
            return False
        if self._since_s is None:
            self._since_s = at_s
        if self._told or at_s - self._since_s < LASTS_S:
            return False
        self._told = True
        return True
