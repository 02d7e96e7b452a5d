"""When a call or a memory of a place counts as right, and how far off it is."""

import math

from voicecoach.head.clock import HOURS
from voicecoach.value import Value

RELATIVE = 0.15
"""A practised observer comes within 10 to 15 in 100 (Scott, Ramsey and Kepler 1981, read)."""
FLOOR_M = 0.06
"""No distance is judged finer than this by eye (working value, our own choice)."""
HOUR = 0.5
"""The nearest whole hour or half-hour is right, whichever was called."""
_HAIR = 1e-6


class Mark(Value):
    """One call beside the truth."""

    said_gap_m: float
    said_hour: float
    true_gap_m: float
    true_hour: float

    @property
    def distance_right(self) -> bool:
        """True within what a practised eye does."""
        off_m = abs(self.said_gap_m - self.true_gap_m)
        return off_m <= max(FLOOR_M, RELATIVE * self.true_gap_m) + _HAIR

    @property
    def hour_off(self) -> float:
        """Called less true, the shorter way round: positive is late, clockwise; hours."""
        return (self.said_hour - self.true_hour + HOURS / 2) % HOURS - HOURS / 2

    @property
    def hour_right(self) -> bool:
        """True for the nearest hour or half-hour."""
        return abs(self.hour_off) <= HOUR + _HAIR

    @property
    def points(self) -> int:
        """One for the distance, one for the hour."""
        return self.distance_right + self.hour_right

    @property
    def ratio(self) -> float:
        """Called distance for each metre of the true one; bodies that nearly touch count as the floor."""
        return max(self.said_gap_m, FLOOR_M) / max(self.true_gap_m, FLOOR_M)

    @property
    def distance_off(self) -> float:
        """How far off, as a share of the true distance and the same for half as for double."""
        return math.exp(abs(math.log(self.ratio))) - 1
