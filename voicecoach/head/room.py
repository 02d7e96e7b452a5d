"""Room for a body: the called point where nothing lies, else the likeliest free place within its doubt.

The body that is newly called gives way, since the others have been confirmed where they lie. A bowl
called like another slides round the face at its called distance until the two touch: within its hour
every place is as likely as the called one, so nothing is lost by moving only one of them.
"""

import math
from collections.abc import Iterator, Sequence
from itertools import combinations

from voicecoach.head.bodies import SLACK_M, Body
from voicecoach.head.estimate import Estimate, Polar
from voicecoach.head.values import Point

DOUBT = 4.605
"""What the doubt explains: nine in ten of the points of a normal spread in two dimensions lie within
the square root of this many standard deviations (chi-square, two degrees of freedom: -2 ln 0.1)."""
_STEPS = 360


def free_place(
    called: Estimate, origin: Point, radius_m: float, others: Sequence[Body]
) -> Point | list[Body]:
    """Where the body goes, in the end's frame; or the bodies in its way, where the doubt leaves no room."""
    point = origin.shifted(*called.point)
    in_the_way = blockers(point, radius_m, others)
    if not in_the_way:
        return point
    near = _near(called, point, radius_m, others)
    best: tuple[float, float, Point] | None = None
    for place in _candidates(called, origin, radius_m, near):
        surprise = called.surprise(*place.seen_from(origin))
        if surprise > DOUBT or blockers(place, radius_m, near):
            continue
        rank = (round(surprise, 6), round(math.dist(place, point), 9), place)
        best = rank if best is None or rank < best else best
    return best[2] if best else in_the_way


def blockers(point: Point, radius_m: float, others: Sequence[Body]) -> list[Body]:
    """The bodies that one at this point would overlap."""
    return [body for body in others if body.gap_to(point, radius_m) < -SLACK_M / 10]


def _near(called: Estimate, point: Point, radius_m: float, others: Sequence[Body]) -> list[Body]:
    """The bodies that any place within the doubt could meet."""
    across, along, _ = called.covariance()
    reach = 4 * math.sqrt(across + along) + 4 * radius_m
    return [body for body in others if body.gap_to(point, radius_m) < reach]


def _candidates(called: Estimate, origin: Point, radius_m: float, others: Sequence[Body]) -> Iterator[Point]:
    """Places where the body touches another: at its called distance, between two, all round each one."""
    rings = [(body.place, body.radius_m + radius_m + SLACK_M) for body in others]
    if isinstance(called, Polar):
        own = (origin, called.gap_m + called.reach_m + SLACK_M)
        for ring in rings:
            yield from crossings(own, ring)
    for one, other in combinations(rings, 2):
        yield from crossings(one, other)
    for middle, distance in rings:
        for step in range(_STEPS):
            angle = math.tau * step / _STEPS
            reach = distance + SLACK_M
            yield middle.shifted(reach * math.sin(angle), reach * math.cos(angle))


def crossings(one: tuple[Point, float], other: tuple[Point, float]) -> list[Point]:
    """Where two circles cross: two points, or none (circles that only touch count as crossing none)."""
    (x1, y1), r1 = one
    (x2, y2), r2 = other
    between = math.hypot(x2 - x1, y2 - y1)
    if not abs(r1 - r2) < between < r1 + r2:
        return []
    along = (between**2 + r1**2 - r2**2) / (2 * between)
    aside = math.sqrt(max(0.0, r1**2 - along**2))
    ux, uy = (x2 - x1) / between, (y2 - y1) / between
    middle = Point(x1 + along * ux, y1 + along * uy)
    return [
        middle.shifted(aside * uy, -aside * ux),
        middle.shifted(-aside * uy, aside * ux),
    ]
