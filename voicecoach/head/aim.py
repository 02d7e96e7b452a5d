"""How far, and which way, the mark moves that the player aims at, for the last miss.

Bowls sent on one line at different speeds finish on one straight line (Judson, "Taking Aim", 2002), so
a miss is an angle at the mat: the mark moves by the miss's share of the distance (similar triangles).
"""

import math
import statistics

from voicecoach.head.blend import covariance_now
from voicecoach.head.bodies import name_of
from voicecoach.head.questions import refuse
from voicecoach.head.values import AimAdvice, Bowl, Event, Head, Refused
from voicecoach.understand.values import Aim

SCATTER = 0.01
"""The player's own scatter in line, metres across for each metre of length: 27 cm at 27 m (working value,
our own choice), used until three bowls of this end show the player's own."""
NEAREST_M = 1.0
"""A bowl that stops nearer to the mat than this says nothing about its line."""


def across_at(across_m: float, distance_m: float, at_m: float) -> float:
    """The same line of sight at another distance from the mat line: similar triangles."""
    return across_m * at_m / distance_m


def aim(head: Head, note: Aim) -> Event | Refused:
    """The advice for the player's last bowl, which is ours."""
    at_m = note.at_m if note.at_m is not None else head.game.aim_at_m
    if not at_m > 0:
        return refuse("mark behind the mat")
    ours = [bowl for bowl in head.bowls if bowl.side == "ours"]
    jack = head.jack.place
    if not ours or jack is None:
        return refuse("no miss")
    last = ours[-1]
    lies = last.place
    if lies is None or lies.y_m < NEAREST_M:
        return refuse("no place")
    wanted = across_at(jack.x_m, jack.y_m, at_m)
    shift = wanted - across_at(lies.x_m, lies.y_m, at_m)
    scatter = _scatter(ours) * at_m
    called = across_at(math.sqrt(max(0.0, covariance_now(head, last)[0])), lies.y_m, at_m)
    advice = AimAdvice(
        shift_m=abs(shift),
        towards="right" if shift > 0 else "left",
        at_m=at_m,
        spread_m=math.hypot(scatter, called),
        leave_it=abs(shift) < scatter,
    )
    return Event(note=note, bowl=name_of(last), aim=advice)


def _scatter(ours: list[Bowl]) -> float:
    """Standard deviation of the player's lines, metres across for each metre of length."""
    places = [bowl.place for bowl in ours]
    lines = [place.x_m / place.y_m for place in places if place and place.y_m >= NEAREST_M]
    return statistics.stdev(lines) if len(lines) >= 3 else SCATTER
