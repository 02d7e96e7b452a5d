"""Mean, spread, ellipse and trend, each only from enough figures, with what ninety-five in a hundred hold.

Means and trends by Student's t, the ellipse of a mean in two directions by Hotelling's T squared (both as
any textbook has them; cited from memory).
"""

import math
from collections.abc import Sequence

from voicecoach.coach.quantiles import student
from voicecoach.value import Value

MEAN_FROM = 5
"""Fewer bowls say nothing about the mean: the interval would be far wider than the spread (our choice)."""
SPREAD_FROM = 8
"""From eight on the standard deviation itself is known to about a quarter: 1/sqrt(2 (n - 1)) is 0.27."""
TREND_ENDS, TREND_BOWLS = 4, 12
"""A line through fewer ends or bowls would be drawn by chance (our choice)."""
_TAIL = 0.975


class Figure(Value):
    """The mean of some figures and how far they spread; None where there are too few."""

    count: int
    mean: float | None = None
    half: float | None = None
    """The mean is known to plus or minus this, ninety-five times in a hundred."""
    spread: float | None = None
    """Standard deviation."""

    @property
    def leans(self) -> bool:
        """Whether the mean is surely not nought."""
        return self.mean is not None and self.half is not None and abs(self.mean) > self.half


class Ellipse(Value):
    """Where the mean of some places lies, ninety-five times in a hundred."""

    across: float
    along: float
    """Its middle."""
    long: float
    short: float
    """Its half axes."""
    turn: float
    """Of the long axis from across towards along, radians."""


class Trend(Value):
    """The change from end to end; None where there are too few bowls or ends."""

    bowls: int
    ends: int
    slope: float | None = None
    half: float | None = None
    """The slope is known to plus or minus this, ninety-five times in a hundred."""
    middle: float = 0.0
    """Mean of the ends."""
    level: float = 0.0
    """Mean of the figures."""
    level_half: float = 0.0
    """The line is known to plus or minus this at its middle, ninety-five times in a hundred."""

    @property
    def shows(self) -> bool:
        """Whether the change is surely not nought."""
        return self.slope is not None and self.half is not None and abs(self.slope) > self.half

    def at(self, end: float) -> tuple[float, float]:
        """The line there, and what it is known to, plus or minus; noughts without a line."""
        off = end - self.middle
        half = math.hypot(self.level_half, (self.half or 0.0) * off)
        return self.level + (self.slope or 0.0) * off, half


def figure(values: Sequence[float]) -> Figure:
    """What these figures show."""
    return from_sums(len(values), math.fsum(values), math.fsum(value * value for value in values))


def from_sums(count: int, total: float, squares: float) -> Figure:
    """The same from how many there are, their sum and the sum of their squares."""
    if count < MEAN_FROM:
        return Figure(count=count)
    mean = total / count
    spread = math.sqrt(max(0.0, squares - count * mean * mean) / (count - 1))
    return Figure(
        count=count,
        mean=mean,
        half=student(_TAIL, count - 1) * spread / math.sqrt(count),
        spread=spread if count >= SPREAD_FROM else None,
    )


def ellipse(places: Sequence[tuple[float, float]]) -> Ellipse | None:
    """Where the mean of places (across, along) lies; None from too few.

    Hotelling: (n - 1) (0.05 ** (-2 / (n - 2)) - 1) standard errors squared, since the upper tail of F with
    two and m degrees of freedom is (1 + 2 F / m) ** (-m / 2).
    """
    count = len(places)
    if count < MEAN_FROM:
        return None
    across, along = (math.fsum(axis) / count for axis in zip(*places, strict=True))
    xx = math.fsum((x - across) ** 2 for x, _ in places) / (count - 1) / count
    yy = math.fsum((y - along) ** 2 for _, y in places) / (count - 1) / count
    xy = math.fsum((x - across) * (y - along) for x, y in places) / (count - 1) / count
    reach = (count - 1) * (0.05 ** (-2 / (count - 2)) - 1)
    middle, half = (xx + yy) / 2, math.hypot((xx - yy) / 2, xy)
    return Ellipse(
        across=across,
        along=along,
        long=math.sqrt(reach * (middle + half)),
        short=math.sqrt(reach * max(0.0, middle - half)),
        turn=math.atan2(2 * xy, xx - yy) / 2,
    )


def trend(points: Sequence[tuple[float, float]]) -> Trend:
    """The straight line through (end, figure) by least squares."""
    ends = len({end for end, _ in points})
    none = Trend(bowls=len(points), ends=ends)
    if ends < TREND_ENDS or len(points) < TREND_BOWLS:
        return none
    count = len(points)
    middle = math.fsum(end for end, _ in points) / count
    level = math.fsum(value for _, value in points) / count
    width = math.fsum((end - middle) ** 2 for end, _ in points)
    slope = math.fsum((end - middle) * (value - level) for end, value in points) / width
    left = math.fsum((value - level - slope * (end - middle)) ** 2 for end, value in points)
    spread = math.sqrt(left / (count - 2))
    reach = student(_TAIL, count - 2) * spread
    return Trend(
        bowls=count,
        ends=ends,
        slope=slope,
        half=reach / math.sqrt(width),
        middle=middle,
        level=level,
        level_half=reach / math.sqrt(count),
    )
