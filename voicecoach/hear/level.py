"""Turns a faint voice up to where the speech model knows voices from."""

from __future__ import annotations

import numpy as np

from voicecoach.hear.blocks import BLOCK, RATE_HZ, Samples, silence

_USUAL_DB = -30.0
"""The loudest block of a voice at the usual distance is above this, decibels below full scale."""
_MOST_DB = 30.0
"""It is not turned up by more than this: below, there is only hiss."""
_TELLS_S = 1.0
"""So much sound tells how loud a voice is: what is kept from before it was noticed, and its first 0.3 s."""
_LEAST = 1e-6


class Level:
    """The sound of one utterance; turned up where its voice is faint, and left as it is where it isn't.

    Measured on 60 spoken notes 55 dB below full scale: the model, which hears in numbers that grow with the
    loudness, had 42 right at once as they were, 52 turned up.
    """

    def __init__(self) -> None:
        self._held = silence(0)
        self._loudest = _LEAST
        self._told = False

    def take(self, samples: Samples) -> Samples:
        """Give what is ready: nothing until there is enough to tell how loud the voice is."""
        self._held = np.concatenate([self._held, samples])
        if not self._told and self._held.size < _TELLS_S * RATE_HZ:
            return silence(0)
        return self.rest()

    def rest(self) -> Samples:
        """Give what was held back, by what is known of its loudness so far."""
        held, self._held = self._held, silence(0)
        self._told = self._told or held.size > 0
        self._loudest = max(self._loudest, _loudest(held))
        wanted_db = _USUAL_DB - 20 * np.log10(self._loudest)
        if wanted_db <= 0:
            return held
        return np.asarray(np.clip(held * 10 ** (min(_MOST_DB, wanted_db) / 20), -1, 1), np.float32)


def _loudest(samples: Samples) -> float:
    """Root mean square of the loudest block."""
    blocks = samples[: samples.size // BLOCK * BLOCK].reshape(-1, BLOCK)
    return float(np.sqrt(np.max(np.mean(np.square(blocks), axis=1), initial=0.0)))
