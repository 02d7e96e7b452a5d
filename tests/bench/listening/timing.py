"""Pace, gaps and durations measured from the sound, and how long the voice takes to make it."""

from __future__ import annotations

import time
from collections.abc import Sequence

import numpy as np

from voicecoach.speak.values import Sound
from voicecoach.speak.voice import Voice
from voicecoach.value import Value

_GAP_S = 0.06
"""Silences from this length on are gaps; shorter ones are part of words."""


class Pace(Value):
    """How a voice was measured to speak."""

    words_per_minute: float
    gap_share: float
    """Share of the time that is gaps inside sentences."""
    longest_s: float
    """The longest sentence."""


def pace_of(voice: Voice, texts: Sequence[str]) -> Pace:
    """Measure the sentences of a read-back."""
    sounds = [voice.render(text) for text in texts]
    total_s = sum(sound.seconds for sound in sounds)
    return Pace(
        words_per_minute=60 * sum(len(text.split()) for text in texts) / total_s,
        gap_share=sum(_gaps_s(sound) for sound in sounds) / total_s,
        longest_s=max(sound.seconds for sound in sounds),
    )


def _gaps_s(sound: Sound) -> float:
    steps = np.diff(np.flatnonzero(np.abs(sound.samples) > 0.003)) / sound.rate_hz
    return float(steps[steps > _GAP_S].sum())


def milliseconds(voice: Voice, texts: Sequence[str]) -> list[float]:
    """How long each sentence takes to make."""
    took = []
    for text in texts:
        began = time.perf_counter()
        voice.render(text)
        took.append(1_000 * (time.perf_counter() - began))
    return took
