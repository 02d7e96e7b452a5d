"""The clock face on the jack: 12 is past it, 3 is to its right, thirty degrees an hour."""

import math

HOURS = 12
HOUR = math.tau / HOURS
"""One hour of the face, radians."""
_HAIR = 1e-9
"""Rounding of the arithmetic, hours: never heard, but it would tip an exact half-way."""


def offset(hour: float, distance_m: float) -> tuple[float, float]:
    """The point so far from the middle of the face on this hour: right and past, metres."""
    return distance_m * math.sin(hour * HOUR), distance_m * math.cos(hour * HOUR)


def hour_of(right_m: float, past_m: float) -> float:
    """The hour on which a point lies, in (0, 12]; the middle of the face itself reads 12."""
    hour = math.atan2(right_m, past_m) / HOUR % HOURS
    return float(HOURS) if hour < _HAIR or hour > HOURS - _HAIR else hour


def snapped(hour: float) -> int:
    """The nearest whole hour, 1 to 12; exactly half-way goes clockwise."""
    return math.floor(hour + 0.5 + _HAIR) % HOURS or HOURS


def turned(hour: float) -> float:
    """The hour as someone reads it who faces the other way: six more, kept in (0, 12]."""
    return (hour + HOURS / 2) % HOURS or float(HOURS)


def apart(one: float, other: float) -> float:
    """How many hours lie between two hours, the shorter way round, 0 to 6."""
    gap = abs(one - other) % HOURS
    return min(gap, HOURS - gap)
