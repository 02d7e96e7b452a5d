"""Tells speech from other sound, block by block."""

from __future__ import annotations

from collections import deque
from typing import Protocol

import numpy as np

from voicecoach.hear.blocks import Samples
from voicecoach.hear.silero import Silero

_HUSH = 10 ** (-80 / 20)
"""Root mean square below which no microphone carries speech.

Measured on 60 spoken notes 55 dB below full scale, whose soft sounds are 20 dB below that: at -65 dB, 19 came
in pieces and 3 were lost; at -80 none came in pieces, and 1 was lost.
"""
_QUIET = 10 ** (-55 / 20)
"""Above this the detector never rests: there may be speech in any noise."""
_STANDS_OUT = 2.0
"""So much louder than the faintest of late, 6 dB, is listened to."""
_RISES = 1.01
"""How fast the faintest is forgotten, a block: 2.7 dB a second."""
_BETWEEN, _SPOKEN = 32, 0.1
"""So many blocks (a second) without any speech come first: no utterance is under way then, whose soft
sounds or pauses would be missed."""
_WARM = 8
"""Blocks that are fed again when sound returns: the detector judges by what went before."""


class Activity(Protocol):
    """Anything that gives the probability of speech in a block of 512 samples."""

    def __call__(self, samples: Samples) -> float:
        """Give the probability of speech, 0 to 1."""
        ...


class VoiceActivity:
    """The Silero network; it rests while there is next to no sound, or nothing but a quiet place's own.

    That is most of an afternoon: the detector was half of what listening to a quiet room cost.
    """

    def __init__(self) -> None:
        self._detector = Silero()
        self._before: deque[Samples] = deque(maxlen=_WARM)
        self._resting = False
        self._floor = _QUIET
        self._unspoken = 0

    def __call__(self, samples: Samples) -> float:
        """Give the probability of speech, 0 to 1."""
        level = float(np.sqrt(np.mean(samples * samples)))
        self._floor = min(max(level, _HUSH), self._floor * _RISES)
        if level < _HUSH or self._is_quiet(level):
            self._resting = True
            self._before.append(samples)
            return 0.0
        if self._resting:
            self._wake()
        probability = self._detector(samples)
        self._unspoken = 0 if probability >= _SPOKEN else self._unspoken + 1
        return probability

    def _is_quiet(self, level: float) -> bool:
        """True between utterances, where the sound is what it has been: faint, and no louder than lately."""
        return self._unspoken >= _BETWEEN and level < min(_QUIET, _STANDS_OUT * self._floor)

    def _wake(self) -> None:
        self._detector.reset()
        for samples in self._before:
            self._detector(samples)
        self._before.clear()
        self._resting = False
