"""What the tape says of a director's eye: bias and spread, of distance and of hour, with intervals.

The method. A called distance is taken to be the true one times a factor that is log-normal: its middle is
the bias, its standard deviation the relative spread. Each logarithm counts with the spread that the
geometry gives its direction (from behind the mat, wider along the line of sight), so that what is found
can be put in the geometry's place for it. Near the jack the spread is a length instead. Hours are
compared the shorter way round; what is left of their spread after the width of the called hour belongs to
the eye. Intervals are for 95 %: Student's for a middle, chi squared's for a spread.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from voicecoach.coach.looks import Look
from voicecoach.coach.quantiles import chi_squared, student
from voicecoach.head.estimate import Floats
from voicecoach.understand.notes.eye import Judging
from voicecoach.value import Value

FAR_M = 0.6
"""True gaps from here on tell of the relative spread: below, the floor of 0.06 m is the larger of the two
for a director whose spread is a tenth."""
NEAR_M = 0.4
"""True gaps below here tell of the floor: there it is the larger for a practised director's 0.15 too."""
BANDS = (0.0, NEAR_M, 1.0, 2.0)
"""Where the bands of true distance begin, metres."""
FEWEST = 5
"""Calls below which nothing is said of a band, nor of the floor or the hour."""
ENOUGH = 10
"""Calls from FAR_M on below which the working values stay."""
_TAIL = 0.025


class Figure(Value):
    """A figure with its 95 % interval."""

    value: float
    low: float
    high: float

    def holds(self, value: float) -> bool:
        """True when a value lies in the interval."""
        return self.low <= value <= self.high


class Band(Value):
    """Calls of bowls that truly lay so far away. Figures are None for too few of them."""

    from_m: float
    to_m: float | None
    """None for the farthest band."""
    count: int
    says: Figure | None = None
    """Called distance for each metre of the true one."""
    relative_sd: Figure | None = None
    hours: int = 0
    """Calls whose hour was measured too."""
    hour_shift: Figure | None = None
    """Called hour less the true one, hours; clockwise is positive."""
    hour_spread: Figure | None = None
    """Standard deviation of the called hour, its width included, hours."""


class Found(Value):
    """The eye as found from one place. Figures are None for too few calls."""

    far: Band
    """All calls from FAR_M on."""
    floor_m: Figure | None
    hours: Band
    """All calls, for their hours."""
    hour_sd: Figure | None
    """Standard deviation of the called hour beyond its width, hours."""
    bands: tuple[Band, ...]
    """By true distance, the nearest first; none for empty ones."""


def found(looks: Sequence[Look]) -> Found:
    """The eye behind some looks, all from one place."""
    far = _band([look for look in looks if look.true_gap_m >= FAR_M], FAR_M, None)
    near = [look for look in looks if look.true_gap_m < NEAR_M]
    hours = _band(looks, 0.0, None)
    ends = (*BANDS[1:], None)
    bands = [
        _band(
            [look for look in looks if look.true_gap_m >= start and (end is None or look.true_gap_m < end)],
            start,
            end,
        )
        for start, end in zip(BANDS, ends, strict=True)
    ]
    return Found(
        far=far,
        floor_m=_floor(near),
        hours=hours,
        hour_sd=_beyond_the_width(looks, hours.hour_spread),
        bands=tuple(band for band in bands if band.count),
    )


def judging(eye: Found) -> Judging | None:
    """What the geometry takes from it, a bias that may be chance left out; None when there is too little."""
    far = eye.far
    if far.count < ENOUGH or far.says is None or far.relative_sd is None:
        return None
    usual = Judging()
    shift = eye.hours.hour_shift
    return Judging(
        says=1.0 if far.says.holds(1.0) else far.says.value,
        relative_sd=far.relative_sd.value,
        floor_m=eye.floor_m.value if eye.floor_m else usual.floor_m,
        hour_shift=0.0 if shift is None or shift.holds(0.0) else shift.value,
        hour_sd=eye.hour_sd.value if eye.hour_sd else usual.hour_sd,
    )


def _band(looks: Sequence[Look], start: float, end: float | None) -> Band:
    says, spread = _distance(looks)
    errors = np.array([error for look in looks if (error := look.hour_error) is not None])
    shift, hour_spread = _middle_and_spread(errors, np.ones(len(errors)))
    return Band(
        from_m=start,
        to_m=end,
        count=len(looks),
        says=says,
        relative_sd=spread,
        hours=len(errors),
        hour_shift=shift,
        hour_spread=hour_spread,
    )


def _distance(looks: Sequence[Look]) -> tuple[Figure | None, Figure | None]:
    logs = np.array([math.log(look.said_gap_m / look.true_gap_m) for look in looks])
    middle, spread = _middle_and_spread(logs, np.array([look.sight for look in looks]))
    if middle is None:
        return None, None
    says = {name: math.exp(value) for name, value in middle}
    return Figure(**says), spread


def _middle_and_spread(values: Floats, widths: Floats) -> tuple[Figure | None, Figure | None]:
    """Of figures whose spreads are one unknown times known widths."""
    weights = 1 / widths**2
    return _from_sums(
        len(values),
        float(np.sum(weights)),
        float(np.sum(weights * values)),
        float(np.sum(weights * values**2)),
    )


def _from_sums(
    count: int, weight: float, total: float, squares: float
) -> tuple[Figure | None, Figure | None]:
    """The same from the sums of the weights, of the weighted figures and of their weighted squares."""
    if count < FEWEST:
        return None, None
    middle = total / weight
    spread = math.sqrt(max(0.0, squares - weight * middle * middle) / (count - 1))
    reach = student(1 - _TAIL, count - 1) * spread / math.sqrt(weight)
    return Figure(value=middle, low=middle - reach, high=middle + reach), _spread(spread, count - 1)


@dataclass
class Far:
    """What is kept of calls from FAR_M on, where there are too many to keep: sums, weighted as above."""

    count: int = 0
    weight: float = 0.0
    total: float = 0.0
    squares: float = 0.0

    def add(self, look: Look) -> None:
        """One more call."""
        value, weight = math.log(look.said_gap_m / look.true_gap_m), 1 / look.sight**2
        self.count += 1
        self.weight += weight
        self.total += weight * value
        self.squares += weight * value * value

    def merge(self, other: Far) -> None:
        """The calls of another part, too."""
        self.count += other.count
        self.weight += other.weight
        self.total += other.total
        self.squares += other.squares

    @property
    def band(self) -> Band:
        """What they show."""
        middle, spread = _from_sums(self.count, self.weight, self.total, self.squares)
        says = middle and Figure(**{name: math.exp(value) for name, value in middle})
        return Band(from_m=FAR_M, to_m=None, count=self.count, says=says, relative_sd=spread)


def _spread(spread: float, freedom: int) -> Figure:
    low, high = (math.sqrt(freedom / chi_squared(share, freedom)) for share in (1 - _TAIL, _TAIL))
    return Figure(value=spread, low=spread * low, high=spread * high)


def _floor(near: Sequence[Look]) -> Figure | None:
    """The root mean square error of calls near the jack, bias included: there is no other figure for it."""
    if len(near) < FEWEST:
        return None
    errors = np.array([look.said_gap_m - look.true_gap_m for look in near])
    return _spread(float(np.sqrt(np.mean(errors**2))), len(near))


def _beyond_the_width(looks: Sequence[Look], spread: Figure | None) -> Figure | None:
    """What is left of the spread of the hours once the widths of the called hours, each uniform, are off."""
    if spread is None:
        return None
    widths = [look.hour_width for look in looks if look.hour_error is not None]
    width = float(np.mean(np.square(widths))) / 12
    return Figure(**{name: math.sqrt(max(0.0, value**2 - width)) for name, value in spread})
