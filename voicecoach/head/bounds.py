"""The rink's bounds for bodies at rest: what the laws make of one that lies beyond them.

A bound is only known once it was set: without the rink's width nothing lies outside it, and without
the length of the green and the place of the mat there is no ditch to lie past.
"""

from dataclasses import dataclass
from typing import Literal

from voicecoach.head.bodies import bowl_radius, jack_radius
from voicecoach.head.spoken import law as law_words
from voicecoach.head.values import Game

SHORTEST_LIVE_M = 14.0
"""Law 17.1.3: from the centre of the mat line to the nearest point of a bowl; at 14 m it lives."""
SHORTEST_REBOUND_M = 20.0
"""Law 19: a jack that comes back to less than this from the mat line is dead; at 20 m it lives."""
DITCH_CLEARANCE_M = 2.0
"""Law 9.2 and the re-spot: nearest point of the jack to the mat line, in front of the ditch."""
_HAIR = 1e-9


@dataclass(frozen=True)
class Fate:
    """What a law makes of a body in such a place."""

    word: Literal["dead", "in the ditch"]
    law: str
    asks: str
    """The question to put before it is filed so."""


def ditch_edge_m(game: Game) -> float | None:
    """How far the edge of the front ditch is from the mat line, when green and mat were set."""
    return None if game.green_m is None or game.mat_m is None else game.green_m - game.mat_m


def bowl_fate(game: Game, x_m: float, y_m: float, moved: bool, ditch: bool = False) -> Fate | None:
    """What the laws make of a bowl whose centre rests there; None for a live one.

    A toucher in the ditch is past the edge by right; only the sides can kill it.
    """
    radius = bowl_radius(game)
    edge = ditch_edge_m(game)
    if game.rink_m is not None and abs(x_m) - radius > game.rink_m / 2 + _HAIR:
        law = "17.1.4" if moved else "17.1.6"
        return _dead(law, "that is outside the rink")
    if ditch:
        return None
    if edge is not None and y_m > edge + _HAIR:
        return Fate("in the ditch", "17.1.1", "that is past the edge of the ditch. In the ditch, or live?")
    if y_m - radius < SHORTEST_LIVE_M - _HAIR:
        return _dead("17.1.3", "that is under fourteen metres from the mat line")
    return None


def jack_fate(game: Game, x_m: float, y_m: float, ditch: bool = False) -> Fate | None:
    """What the laws make of a jack whose centre came to rest there; None for a live one.

    A jack in the front ditch is live within the sides.
    """
    edge = ditch_edge_m(game)
    if game.rink_m is not None and abs(x_m) - jack_radius(game) > game.rink_m / 2 + _HAIR:
        return _dead("19", "that puts the jack outside the rink")
    if ditch:
        return None
    if edge is not None and y_m > edge + _HAIR:
        return Fate("in the ditch", "18.1", "that is past the edge of the ditch. In the ditch, or live?")
    if y_m < SHORTEST_REBOUND_M - _HAIR:
        return _dead("19", "that puts the jack under twenty metres from the mat line")
    return None


def _dead(law: str, what: str) -> Fate:
    return Fate("dead", law, f"{what}, and {law_words(law)} makes it dead. Dead, or live?")
