"""The rink's bounds for bodies at rest: what the laws make of one that lies beyond them.

A bound is only known once it was set: without the rink's width nothing lies outside it, and without
the length of the green and the place of the mat there is no ditch to lie past.
"""

from voicecoach.head.bodies import bowl_radius, jack_radius
from voicecoach.head.values import Breach, Game, Point

SHORTEST_LIVE_M = 14.0
"""Law 17.1.3: from the centre of the mat line to the nearest point of a bowl; at 14 m it lives."""
SHORTEST_REBOUND_M = 20.0
"""Law 19: a jack that comes back to less than this from the mat line is dead; at 20 m it lives."""
DITCH_CLEARANCE_M = 2.0
"""Law 9.2 and the re-spot: nearest point of the jack to the mat line, in front of the ditch."""
_HAIR = 1e-9


def ditch_edge_m(game: Game) -> float | None:
    """How far the edge of the front ditch is from the mat line, when green and mat were set."""
    return None if game.green_m is None or game.mat_m is None else game.green_m - game.mat_m


def bowl_fate(game: Game, place: Point, moved: bool, ditch: bool = False) -> Breach | None:
    """What the laws make of a bowl whose centre rests there; None for a live one.

    A toucher in the ditch is past the edge by right; only the sides can kill it.
    """
    radius = bowl_radius(game)
    edge = ditch_edge_m(game)
    if game.rink_m is not None and abs(place.x_m) - radius > game.rink_m / 2 + _HAIR:
        return Breach(name="bowl outside", law="17.1.4" if moved else "17.1.6")
    if ditch:
        return None
    if edge is not None and place.y_m > edge + _HAIR:
        return Breach(name="past the ditch", law="17.1.1")
    if place.y_m - radius < SHORTEST_LIVE_M - _HAIR:
        return Breach(name="bowl too short", law="17.1.3")
    return None


def jack_fate(game: Game, place: Point, ditch: bool = False) -> Breach | None:
    """What the laws make of a jack whose centre came to rest there; None for a live one.

    A jack in the front ditch is live within the sides.
    """
    edge = ditch_edge_m(game)
    if game.rink_m is not None and abs(place.x_m) - jack_radius(game) > game.rink_m / 2 + _HAIR:
        return Breach(name="jack outside", law="19")
    if ditch:
        return None
    if edge is not None and place.y_m > edge + _HAIR:
        return Breach(name="past the ditch", law="18.1")
    if place.y_m < SHORTEST_REBOUND_M - _HAIR:
        return Breach(name="jack too short", law="19")
    return None
