"""How loud a voice is while it speaks, by ITU-T P.56: then "10 dB" means what others mean by it.

Source: ITU-T Recommendation P.56 (12/2011), Objective measurement of active speech level, method B, without
the optional band filter; its constants are from memory and agree with a second implementation (see the test).
"""

from __future__ import annotations

from itertools import accumulate
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from voicecoach.hear.blocks import RATE_HZ, Samples

_SMOOTHS_S = 0.03
"""Time constant of both stages of the envelope."""
_HANGOVER_S = 0.2
"""Speech is held to go on for so long after its envelope has fallen below a threshold."""
_MARGIN_DB = 15.9
"""The active level lies so far above the threshold that tells speech from pauses."""
_BITS = 16


class SpeechLevel(NamedTuple):
    """The level of a stretch of speech."""

    active_db: float
    """Root mean square of what is speech, decibels below full scale (full scale is a sample of 1)."""
    activity: float
    """Which share of the time is speech, 0 to 1."""


def active_level(speech: Samples) -> SpeechLevel:
    """Measure the active level of speech at 16 kHz that is clean but for what a microphone adds.

    Raises:
        ValueError: There is no speech in it: nothing, or nothing above the steps of sixteen bits.
    """
    energy = float(np.sum(np.square(speech, dtype=np.float64)))
    envelope = _envelope(speech)
    before: tuple[float, float] | None = None
    for power in range(1 - _BITS, 0):
        active = _active(envelope, 2.0**power)
        if not active:
            break
        level_db, above_db = (
            _decibels(energy / active),
            _decibels(energy / active) - 20 * np.log10(2.0**power),
        )
        if above_db <= _MARGIN_DB:
            if before is None:
                break
            lower_db, lower_above_db = before
            share = (lower_above_db - _MARGIN_DB) / (lower_above_db - above_db)
            found_db = lower_db + share * (level_db - lower_db)
            activity = energy / speech.size / 10 ** (found_db / 10)
            return SpeechLevel(float(found_db), float(min(1.0, activity)))
        before = level_db, above_db
    raise ValueError("no speech is heard in this sound: it is silent, or too faint for sixteen bits")


def _decibels(power: float) -> float:
    return 10 * float(np.log10(power))


def _envelope(speech: Samples) -> npt.NDArray[np.float64]:
    """The rectified sound, smoothed twice."""
    keeps = float(np.exp(-1 / (_SMOOTHS_S * RATE_HZ)))

    def smoothed(values: list[float]) -> list[float]:
        return list(accumulate(values, lambda last, now: keeps * last + (1 - keeps) * now, initial=0.0))[1:]

    return np.asarray(smoothed(smoothed(np.abs(speech, dtype=np.float64).tolist())))


def _active(envelope: npt.NDArray[np.float64], threshold: float) -> int:
    """How many samples are at the threshold or no longer than the hangover after it."""
    places = np.arange(envelope.size)
    since = places - np.maximum.accumulate(np.where(envelope >= threshold, places, -envelope.size * 2))
    return int(np.count_nonzero(since <= np.ceil(_HANGOVER_S * RATE_HZ)))
