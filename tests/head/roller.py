"""A bowl rolled in small steps, for the tests: heading and speed as complex numbers, no closed form.

It shares nothing with the engine but the physics that both are meant to follow: the bowl slows at a
constant rate, and turns at a rate inverse to its speed. Where it comes to rest is found by rolling it
straight up the rink, then turning and stretching the whole track so that it ends on the target.
"""

from __future__ import annotations

import cmath
import math

import numpy as np
from numpy.typing import NDArray

Track = NDArray[np.complex128]


def rolled(target: complex, angle_deg: float, right: bool, until_m: float, steps: int = 40_000) -> Track:
    """Places from the mat to where the bowl is `until_m` from the target, for a bowl that bends so much."""
    track = _straight_up(math.tan(math.radians(angle_deg)), steps)
    if right:
        track = -track.conj()
    track = track * (target / track[-1])
    kept: Track = track[np.abs(track - target) >= until_m]
    return kept


def _straight_up(p: float, steps: int) -> Track:
    """Sent straight up the rink, turning right; the speed falls evenly, by time, from one to nothing."""
    place, heading, way = 0j, 1j, [0j]
    for speed, step in zip(*_speeds(steps), strict=True):
        # v^2 = 2as and a curvature of p/s make a rate of turning of 2ap/v; here a = 1.
        turn = cmath.exp(-1j * 2 * p / speed * step / 2)
        place += speed * step * heading * turn
        heading *= turn * turn
        way.append(place)
    return np.array(way)


def _speeds(steps: int) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Speeds in the middle of each step and the times of the steps: shorter the slower it runs."""
    ends = np.geomspace(1.0, 1e-4, steps + 1)
    return (ends[:-1] + ends[1:]) / 2, ends[:-1] - ends[1:]


def nearest(track: Track, body: complex) -> float:
    """The least distance between the track and the centre of a body, metres: from step to step, too."""
    steps = np.diff(track)
    lengths = np.maximum(np.abs(steps) ** 2, np.finfo(float).tiny)
    along = np.clip(((body - track[:-1]) * steps.conj()).real / lengths, 0, 1)
    return float(np.abs(track[:-1] + along * steps - body).min())
