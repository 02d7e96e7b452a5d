"""Places a sound to the left or right of a listener in headphones, by time and level between the ears.

The listener stands at the jack and faces away from the mat, so twelve o'clock is ahead, three is on the
right and six is behind. The ears can't tell ahead from behind by time and level alone (twelve and six,
one and five, two and four sound alike): depth needs a second cue, see `stereo`.
"""

import math

import numpy as np

from voicecoach.speak.samples import quick
from voicecoach.speak.values import Samples

HEAD_RADIUS_M = 0.0875
SPEED_OF_SOUND = 343.0
"""Metres a second."""
FULL_LEVEL_DB = 8.0
"""Difference in level between the ears for a sound straight to the side (our own choice for speech)."""

FromJack = tuple[float, float]
"""Where something lies from the jack, metres: to the right, past."""


def azimuth(place: FromJack) -> float:
    """The direction of a place, radians, right of straight ahead; ahead for the jack itself."""
    return math.atan2(place[0], place[1])


def lateral(direction: float) -> float:
    """How far to the side a direction is, radians, from -pi/2 (left) to pi/2 (right)."""
    return math.asin(math.sin(direction))


def time_difference_s(direction: float) -> float:
    """How much later the sound reaches the left ear, seconds (Woodworth's formula); negative on the left."""
    side = lateral(direction)
    return HEAD_RADIUS_M / SPEED_OF_SOUND * (side + math.sin(side))


def level_difference_db(direction: float) -> float:
    """How much louder the right ear hears it, decibels; negative on the left."""
    return FULL_LEVEL_DB * math.sin(direction)


def delayed(samples: Samples, rate_hz: int, seconds: float) -> Samples:
    """Delay the samples by a time that need not be a whole number of samples, exactly at every frequency.

    Each frequency's phase is turned; silence is added so that nothing comes round to the front.
    """
    if not seconds:
        return samples
    length = quick(len(samples) + rate_hz // 20)
    turns = np.fft.rfftfreq(length, 1 / rate_hz) * seconds
    later = np.fft.irfft(np.fft.rfft(samples, length) * np.exp(-2j * np.pi * turns), length)
    return np.asarray(later[: len(samples) + math.ceil(seconds * rate_hz)], np.float32)


def placed(samples: Samples, rate_hz: int, direction: float) -> Samples:
    """The sound from a direction, as loud in both ears together: one row a sample, left ear first."""
    difference_s, level_db = time_difference_s(direction), level_difference_db(direction)
    left = 1 / math.sqrt(1 + 10 ** (level_db / 10))
    right = math.sqrt(1 - left * left)
    ears = [
        delayed(samples, rate_hz, max(0.0, difference_s)) * left,
        delayed(samples, rate_hz, max(0.0, -difference_s)) * right,
    ]
    rows = np.zeros((max(len(ear) for ear in ears), 2), np.float32)
    for column, ear in enumerate(ears):
        rows[: len(ear), column] = ear
    return rows
