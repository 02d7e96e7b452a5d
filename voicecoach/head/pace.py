"""The pace of a green, and the angle that follows from it.

The pace is the seconds that a bowl takes to come to rest about 27 m from the mat line (the laws' own
measure; from memory). With constant slowing a = 2 * 27 / T^2, and the tangent of a bowl's angle, k/(2a),
grows with the square of the pace: tan A = k T^2 / (4 * 27). It doesn't depend on the length.
"""

import math

from voicecoach.head.values.bowling import Bowling

PACE_AT_M = 27.0
"""The length for which a green's pace is stated, metres."""
USUAL_PACE_S = 14.0
USUAL_ANGLE_DEG = 10.0
"""A launch at about ten degrees on a green of about fourteen seconds: Cross, "The trajectory of a ball in
lawn bowls", American Journal of Physics 66, 1998, introduction (read)."""
SHORTEST_S, LONGEST_S = 8.0, 22.0
"""The shortest and the longest time that is taken for a pace, seconds: ten to nineteen are common
(common practice, no source), the rest is room for greens beyond that."""


def pace(bowling: Bowling) -> float | None:
    """The green's pace, seconds: the mean of those timed, else the one that was said, else None."""
    return bowling.timed.mean if bowling.timed.count else bowling.pace_s


def at_27_m(seconds: float, length_m: float) -> float:
    """The pace of a green on which a bowl ran so long in so many seconds: T^2 goes with the length."""
    return seconds * math.sqrt(PACE_AT_M / length_m)


def slowing(pace_s: float) -> float:
    """How a bowl slows on a green of this pace, metres per second squared."""
    return 2 * PACE_AT_M / pace_s**2


def angle_at(pace_s: float, angle_deg: float = USUAL_ANGLE_DEG, known_at_s: float = USUAL_PACE_S) -> float:
    """The angle, degrees, at one pace of a bowl whose angle is known at another."""
    return math.degrees(math.atan(math.tan(math.radians(angle_deg)) * (pace_s / known_at_s) ** 2))


def angle_of_aim(aside_m: float, at_m: float) -> float:
    """The angle, degrees, of an aim so far to the side of the line to the target at a mark so far away."""
    return math.degrees(math.atan2(aside_m, at_m))
