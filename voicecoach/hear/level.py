"""Turns a faint voice up, and one that is too loud down, to the level of the voices that the model knows."""

from __future__ import annotations

import numpy as np

from voicecoach.hear.blocks import BLOCK, RATE_HZ, Samples, silence

_FAINT_DB = -24.0
"""The loudest block of a voice is above this, decibels below full scale, unless the voice is faint.

Measured on 60 spoken notes 32 dB fainter than usual: 35 were right at once as they were, 47 when they
were turned up to -30 dB, 50 to this and 49 to -18 dB.
"""
_LOUD_DB = -8.0
"""It is below this, unless the microphone is turned up too far.

Measured on 60 spoken notes that are cut flat: 46 were right at once as they were, 52 when they
were turned down to this, 51 to -14 dB.
"""
_MOST_DB = 30.0
"""No voice is turned up by more than this: what would need more is only hiss."""
_TELLS_S = 0.85
"""Sound that tells how loud a voice is: what is kept from before it was noticed, and its first 0.15 s.

With 0.3 s of the voice, the program fell silent later after "stop" was said.
"""
_LEAST = 1e-6


class Level:
    """The sound of one utterance, at the level at which it is heard best; most are left as they are."""

    def __init__(self) -> None:
        self._held = silence(0)
        self._loudest = _LEAST
        self._told = False

    def process(self, samples: Samples) -> Samples:
        """Give what is ready. That is nothing until there is enough to tell how loud the voice is."""
        self._held = np.concatenate([self._held, samples])
        if not self._told and self._held.size < _TELLS_S * RATE_HZ:
            return silence(0)
        return self.rest()

    def rest(self) -> Samples:
        """Give what was held back, at the level that follows from what was heard of the voice."""
        held, self._held = self._held, silence(0)
        self._told = self._told or held.size > 0
        self._loudest = max(self._loudest, _loudest(held))
        loudest_db = 20 * np.log10(self._loudest)
        turned_db = min(_MOST_DB, np.clip(loudest_db, _FAINT_DB, _LOUD_DB) - loudest_db)
        return np.asarray(held * 10 ** (turned_db / 20), np.float32)


def _loudest(samples: Samples) -> float:
    """Root mean square of the loudest block."""
    blocks = samples[: samples.size // BLOCK * BLOCK].reshape(-1, BLOCK)
    return float(np.sqrt(np.max(np.mean(np.square(blocks), axis=1), initial=0.0)))
