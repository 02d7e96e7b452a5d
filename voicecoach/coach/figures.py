"""Mean, spread and trend, each only from enough figures, with what ninety-five in a hundred would hold."""

import math
from collections.abc import Sequence

from voicecoach.value import Value

MEAN_FROM = 5
"""Fewer bowls say nothing about the mean: the interval would be far wider than the spread (our choice)."""
SPREAD_FROM = 8
"""From eight on the standard deviation itself is known to about a quarter: 1/sqrt(2 (n - 1)) is 0.27."""
TREND_ENDS, TREND_BOWLS = 4, 12
"""A line through fewer ends or bowls would be drawn by chance (our choice)."""
_NORMAL_975 = 1.959964


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


class Trend(Value):
    """The change from end to end; None where there are too few bowls or ends."""

    bowls: int
    ends: int
    slope: float | None = None
    half: float | None = None
    """The slope is known to plus or minus this, ninety-five times in a hundred."""

    @property
    def shows(self) -> bool:
        """Whether the change is surely not nought."""
        return self.slope is not None and self.half is not None and abs(self.slope) > self.half


def figure(values: Sequence[float]) -> Figure:
    """What these figures show."""
    count = len(values)
    if count < MEAN_FROM:
        return Figure(count=count)
    mean = math.fsum(values) / count
    spread = math.sqrt(math.fsum((value - mean) ** 2 for value in values) / (count - 1))
    return Figure(
        count=count,
        mean=mean,
        half=t_975(count - 1) * spread / math.sqrt(count),
        spread=spread if count >= SPREAD_FROM else None,
    )


def trend(points: Sequence[tuple[int, float]]) -> Trend:
    """The straight line through (end, figure) by least squares."""
    ends = len({end for end, _ in points})
    none = Trend(bowls=len(points), ends=ends)
    if ends < TREND_ENDS or len(points) < TREND_BOWLS:
        return none
    middle = math.fsum(end for end, _ in points) / len(points)
    level = math.fsum(value for _, value in points) / len(points)
    width = math.fsum((end - middle) ** 2 for end, _ in points)
    slope = math.fsum((end - middle) * (value - level) for end, value in points) / width
    left = math.fsum((value - level - slope * (end - middle)) ** 2 for end, value in points)
    error = math.sqrt(left / (len(points) - 2) / width)
    return none.model_copy(update={"slope": slope, "half": t_975(len(points) - 2) * error})


def t_975(freedom: int) -> float:
    """Student's t at 97.5 in a hundred, by the Cornish-Fisher series: within 0.3 % from four on."""
    z = _NORMAL_975
    terms = (
        (z**3 + z) / 4,
        (5 * z**5 + 16 * z**3 + 3 * z) / 96,
        (3 * z**7 + 19 * z**5 + 17 * z**3 - 15 * z) / 384,
        (79 * z**9 + 776 * z**7 + 1482 * z**5 - 1920 * z**3 - 945 * z) / 92160,
    )
    return z + math.fsum(term / float(freedom) ** power for power, term in enumerate(terms, start=1))
