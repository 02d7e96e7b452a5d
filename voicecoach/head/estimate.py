"""One called place as a distribution round the called point, seen from the jack (right, past; metres).

An hour is uniform over its width. A distance has a relative spread that belongs to the observer, is
log-normal, and never gets finer than the floor; touching is seen, not estimated, and has none. From
the mat the line of sight (along the rink) is judged worse than what lies across it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from voicecoach.head.clock import HOUR, apart, hour_of, offset
from voicecoach.head.values import Call
from voicecoach.understand.values import Where

Floats = NDArray[np.float64]
Covariance = tuple[float, float, float]
"""Variance across, variance along, covariance; square metres."""

FLOOR_M = 0.06
"""No distance is judged finer than this by eye (working value, our own choice)."""
LINE_OF_SIGHT = 4 / 3
"""How much wider the spread along the line of sight is for someone at the mat. That distances along it
look compressed is published (Li, Phillips and Durgin 2011, read in abstract); the factor is ours."""
TAPE_SD_M = 0.005
"""A tape pulled over grass between two round bodies (working value, our own choice)."""
JACK_HIGH_SD_M = FLOOR_M * LINE_OF_SIGHT
"""How well "jack high" is judged along the rink (working value, our own choice)."""


@dataclass(frozen=True)
class Polar:
    """A gap and an hour; `reach_m` is what lies between gap and centre distance, both radii together."""

    gap_m: float
    hour: float
    half_width: float
    relative_sd: float
    reach_m: float

    @property
    def point(self) -> tuple[float, float]:
        """The called point."""
        return offset(self.hour, self.gap_m + self.reach_m)

    @property
    def gap_sd_m(self) -> float:
        """Standard deviation of the gap; none for bodies that touch."""
        return max(FLOOR_M, self.relative_sd * self.gap_m) if self.gap_m > 0 else 0.0

    def covariance(self) -> Covariance:
        """Of the point, with a uniform hour's variance taken round the face."""
        radial = self.gap_sd_m**2
        tangential = ((self.gap_m + self.reach_m) * self.half_width * HOUR) ** 2 / 3
        right, past = offset(self.hour, 1.0)
        return (
            radial * right**2 + tangential * past**2,
            radial * past**2 + tangential * right**2,
            (radial - tangential) * right * past,
        )

    def surprise(self, right_m: float, past_m: float) -> float:
        """How unlikely a point is: squared standard deviations, infinite outside the hour's width."""
        distance = math.hypot(right_m, past_m)
        gap = max(0.0, distance - self.reach_m)
        if distance and apart(hour_of(right_m, past_m), self.hour) > self.half_width + 1e-9:
            return math.inf
        if abs(gap - self.gap_m) < 1e-6:
            return 0.0
        if not self.gap_sd_m or not gap:
            return math.inf if not self.gap_sd_m else ((gap - self.gap_m) / self.gap_sd_m) ** 2
        if self._logarithmic:
            return float((math.log(gap / self.gap_m) / self.relative_sd) ** 2)
        return float(((gap - self.gap_m) / self.gap_sd_m) ** 2)

    def sampled(self, normal: Floats, uniform: Floats) -> tuple[Floats, Floats]:
        """Points drawn from it: `normal` is standard normal, `uniform` lies in -1 to 1."""
        if self._logarithmic:
            gap = self.gap_m * np.exp(self.relative_sd * normal)
        else:
            gap = np.abs(self.gap_m + self.gap_sd_m * normal)
        angle = (self.hour + self.half_width * uniform) * HOUR
        return (gap + self.reach_m) * np.sin(angle), (gap + self.reach_m) * np.cos(angle)

    @property
    def _logarithmic(self) -> bool:
        return self.relative_sd * self.gap_m >= FLOOR_M


@dataclass(frozen=True)
class Axes:
    """A distance across and a distance along the rink, each with its own spread."""

    right_m: float
    past_m: float
    sd_right_m: float
    sd_past_m: float

    @property
    def point(self) -> tuple[float, float]:
        """The called point."""
        return self.right_m, self.past_m

    def covariance(self) -> Covariance:
        """Of the point."""
        return self.sd_right_m**2, self.sd_past_m**2, 0.0

    def surprise(self, right_m: float, past_m: float) -> float:
        """How unlikely a point is, in squared standard deviations."""
        return ((right_m - self.right_m) / self.sd_right_m) ** 2 + (
            (past_m - self.past_m) / self.sd_past_m
        ) ** 2

    def sampled(self, normal: Floats, uniform: Floats) -> tuple[Floats, Floats]:
        """Points drawn from it; along the rink the spread is uniform, with the same variance."""
        along = self.sd_past_m * math.sqrt(3.0) * uniform
        return self.right_m + self.sd_right_m * normal, self.past_m + along


Estimate = Polar | Axes


def of_call(call: Call, bowl_mm: float, jack_mm: float) -> Estimate:
    """The distribution of one call of a bowl, or of how far it was moved."""
    reach = 0.0 if call.by else (bowl_mm + jack_mm) / 2000
    return estimate(call.where, call.stood != "mat", call.relative_sd, reach, (bowl_mm - jack_mm) / 2000)


def estimate(
    where: Where, close: bool, relative_sd: float, reach_m: float, jack_high_m: float = 0.0
) -> Estimate:
    """The distribution of a settled place; `close` for a caller who stands at the head."""
    sight = 1.0 if close else LINE_OF_SIGHT
    if where.along_m is not None or where.across_m is not None:
        along, across = where.along_m or 0.0, where.across_m or 0.0
        return Axes(
            _outward(across, reach_m),
            _outward(along, reach_m),
            max(FLOOR_M, relative_sd * abs(across)),
            max(FLOOR_M, relative_sd * sight * abs(along)),
        )
    gap = where.gap_m or 0.0
    if "jack high" in where.remarks:
        right = math.sqrt((gap + reach_m) ** 2 - jack_high_m**2)
        return Axes(
            right if "right" in where.remarks else -right,
            jack_high_m,
            max(FLOOR_M, relative_sd * gap),
            JACK_HIGH_SD_M if not close else FLOOR_M,
        )
    hour = where.hour or 12.0
    right, past = offset(hour, 1.0)
    spread = relative_sd * math.hypot(right, past * sight)
    return Polar(gap, hour, where.hour_width / 2, spread, reach_m)


def _outward(gap_m: float, reach_m: float) -> float:
    """A gap along one axis as a centre distance; no gap said along it means level with the jack."""
    return math.copysign(abs(gap_m) + reach_m, gap_m) if gap_m else 0.0
