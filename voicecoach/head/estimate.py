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
from voicecoach.head.values import Call, Point
from voicecoach.understand.notes.eye import Judging
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
_BY_TAPE = Judging(relative_sd=0.0, floor_m=TAPE_SD_M)


@dataclass(frozen=True)
class Polar:
    """A gap and an hour; `reach_m` is what lies between gap and centre distance, both radii together."""

    gap_m: float
    hour: float
    half_width: float
    relative_sd: float
    reach_m: float
    floor_m: float = FLOOR_M
    says: float = 1.0
    """Called distance for each metre of the true one."""
    shift: float = 0.0
    """Called hour less the true one."""

    @property
    def point(self) -> tuple[float, float]:
        """The called point."""
        return offset(self.hour, self.gap_m + self.reach_m)

    @property
    def gap_sd_m(self) -> float:
        """Standard deviation of the gap; none for bodies that touch."""
        return max(self.floor_m, self.relative_sd * self.gap_m) if self.gap_m > 0 else 0.0

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
            gap = self.gap_m / self.says * np.exp(self.relative_sd * normal)
        else:
            gap = np.abs(self.gap_m / self.says + self.gap_sd_m * normal)
        angle = (self.hour - self.shift + self.half_width * uniform) * HOUR
        return (gap + self.reach_m) * np.sin(angle), (gap + self.reach_m) * np.cos(angle)

    @property
    def _logarithmic(self) -> bool:
        return self.relative_sd * self.gap_m >= self.floor_m


@dataclass(frozen=True)
class Axes:
    """A distance across and a distance along the rink, each with its own spread."""

    right_m: float
    past_m: float
    sd_right_m: float
    sd_past_m: float
    says: float = 1.0
    """Called distance for each metre of the true one."""

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
        return self.right_m / self.says + self.sd_right_m * normal, self.past_m / self.says + along


Estimate = Polar | Axes


def of_call(call: Call, bowl_mm: float, jack_mm: float) -> Estimate:
    """The distribution of one call of a bowl round what it was called from, or of how far it was moved."""
    other_mm = bowl_mm if call.landmark else jack_mm
    reach = 0.0 if call.by else (bowl_mm + other_mm) / 2000
    eye = _BY_TAPE if call.stood == "tape" else call.judging or usual(call.relative_sd)
    return estimate(call.where, call.stood != "mat", eye, reach, (bowl_mm - other_mm) / 2000)


def origin_of(call: Call, jack: Point) -> Point:
    """What a call's distribution lies round: the jack as it lay then, or the bowl it was called from."""
    return jack.shifted(call.landmark.right_m, call.landmark.past_m) if call.landmark else jack


def usual(relative_sd: float) -> Judging:
    """The working values for a director of whom no tape has told."""
    return Judging(relative_sd=relative_sd, floor_m=FLOOR_M)


def sight(hour: float, close: bool) -> float:
    """How much wider a distance's spread is towards this hour than across the rink."""
    right, past = offset(hour, 1.0)
    return math.hypot(right, past * (1.0 if close else LINE_OF_SIGHT))


def estimate(where: Where, close: bool, eye: Judging, reach_m: float, jack_high_m: float = 0.0) -> Estimate:
    """The distribution of a settled place; `close` for a caller who stands at the head."""
    if where.along_m is not None or where.across_m is not None:
        along, across = where.along_m or 0.0, where.across_m or 0.0
        return Axes(
            _outward(across, reach_m),
            _outward(along, reach_m),
            max(eye.floor_m, eye.relative_sd * abs(across)),
            max(eye.floor_m, eye.relative_sd * sight(12.0, close) * abs(along)),
            eye.says,
        )
    gap = where.gap_m or 0.0
    if "jack high" in where.remarks:
        right = math.sqrt((gap + reach_m) ** 2 - jack_high_m**2)
        return Axes(
            right if "right" in where.remarks else -right,
            jack_high_m,
            max(eye.floor_m, eye.relative_sd * gap),
            JACK_HIGH_SD_M if not close else FLOOR_M,
            eye.says,
        )
    hour = where.hour or 12.0
    spread = eye.relative_sd * sight(hour, close)
    # A uniform hour of the same variance as the said width and the eye's own spread together.
    half_width = math.sqrt((where.hour_width / 2) ** 2 + 3 * eye.hour_sd**2)
    return Polar(gap, hour, half_width, spread, reach_m, eye.floor_m, eye.says, eye.hour_shift)


def _outward(gap_m: float, reach_m: float) -> float:
    """A gap along one axis as a centre distance; no gap said along it means level with the jack."""
    return math.copysign(abs(gap_m) + reach_m, gap_m) if gap_m else 0.0
