"""How far, and which way, the mark moves that the player aims at, for the last miss.

Bowls sent on one line at different speeds finish on one straight line (Judson, "Taking Aim", 2002), so
a miss of line is an angle at the mat: the mark moves by its share of the distance (similar triangles).
Whether it was line or weight goes by the same line and the same spread.
"""

import math

from voicecoach.head.blend import covariance_now
from voicecoach.head.miss import last_bowl, miss
from voicecoach.head.questions import refuse
from voicecoach.head.values import AimAdvice, Event, Head, Refused
from voicecoach.understand.values import Aim


def across_at(across_m: float, distance_m: float, at_m: float) -> float:
    """The same line of sight at another distance from the mat line: similar triangles."""
    return across_m * at_m / distance_m


def aim(head: Head, note: Aim) -> Event | Refused:
    """The advice for the player's last bowl, which is ours."""
    at_m = note.at_m if note.at_m is not None else head.game.aim_at_m
    if not at_m > 0:
        return refuse("mark behind the mat")
    jack = head.jack.place
    if jack is None or not any(bowl.side == "ours" for bowl in head.bowls):
        return refuse("no miss")
    last, missed = last_bowl(head), miss(head)
    if last is None or missed is None:
        return refuse("no place")
    jack_m = math.hypot(*jack)
    scatter = across_at(missed.spread_m, jack_m, at_m)
    called = across_at(math.sqrt(max(0.0, covariance_now(head, last.bowl)[0])), last.place.y_m, at_m)
    advice = AimAdvice(
        shift_m=across_at(abs(missed.right_m), jack_m, at_m),
        towards="left" if missed.right_m > 0 else "right",
        at_m=at_m,
        spread_m=math.hypot(scatter, called),
        leave_it=not missed.line,
        miss=missed,
    )
    return Event(note=note, bowl=missed.bowl, aim=advice)
