"""The rink's bounds for bodies at rest: what the laws make of one that lies beyond them.

A bound is only known once it was set. Until then the widest rink and the longest green that the laws allow
stand for it: what lies beyond those was misheard, or is told again as live.
"""

import math

from voicecoach.head.bodies import bowl_radius, jack_radius
from voicecoach.head.values import Breach, BreachName, Event, Game, Head, Point

WIDEST_RINK_M = 5.8
"""Law 49.1, outdoors."""
LONGEST_GREEN_M = 40.0
"""Law 46.2."""
SHORTEST_GREEN_M = 31.0
"""Law 46.2."""
SHORTEST_TO_DITCH_M = 25.0
"""Law 6.1.1: from the mat line to the front ditch."""
NEAREST_MAT_M = 2.0
"""Law 6.1.1: the mat line is no nearer to the rear ditch."""
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


def assumed_edge_m(game: Game) -> float:
    """The farthest that the edge of the front ditch can be from the mat line by the laws, metres.

    It is farther once the caller has said that something lies live beyond.
    """
    longest = (game.green_m or LONGEST_GREEN_M) - (game.mat_m or NEAREST_MAT_M)
    return max(longest, game.farthest_m or 0.0)


def likely_edge_m(game: Game, past_m: float) -> tuple[float, float]:
    """Where the edge of the front ditch may be while nobody has said so, and its standard deviation, metres.

    Anywhere between the laws' bounds alike, and past what lay at `past_m`: the front ditch is 25 m or more
    from the mat line (law 6.1.1), and the green 31 m or more long (law 46.2).
    """
    least = max(
        SHORTEST_TO_DITCH_M, (game.green_m or SHORTEST_GREEN_M) - (game.mat_m or SHORTEST_GREEN_M), past_m
    )
    most = max(assumed_edge_m(game), least + DITCH_CLEARANCE_M)
    return (least + most) / 2, (most - least) / math.sqrt(12)


def assumed_rink_m(game: Game) -> float:
    """The widest that the rink can be, metres: as set, or as agreed to, or by the laws.

    A distance judged by eye is taken to be wrong by twice its doubt before a law is asked about.
    """
    return game.rink_m or max(WIDEST_RINK_M * (1 + 2 * game.relative_sd), game.widest_m or 0.0)


def with_what_was_agreed(head: Head, event: Event) -> Event:
    """The event, with a game in which what was filed beyond the widest bounds is asked about no more."""
    game = event.game or head.game
    for bowl in event.bowls:
        if bowl.state == "live" and bowl.place is not None:
            game = _agreed(game, bowl.place, bowl_radius(game), 0.0)
    if event.jack is not None and event.jack.state == "live" and event.jack.place is not None:
        game = _agreed(game, event.jack.place, jack_radius(game), DITCH_CLEARANCE_M)
    return event if game == (event.game or head.game) else event.model_copy(update={"game": game})


def _agreed(game: Game, place: Point, radius_m: float, clear_m: float) -> Game:
    """The game in which a body may lie live there, so far clear of the front ditch."""
    changes: dict[str, float] = {}
    if game.rink_m is None and abs(place.x_m) - radius_m > assumed_rink_m(game) / 2:
        changes["widest_m"] = 2 * (abs(place.x_m) - radius_m)
    if ditch_edge_m(game) is None and place.y_m + clear_m > assumed_edge_m(game):
        changes["farthest_m"] = place.y_m + clear_m
    return game.model_copy(update=changes) if changes else game


def bowl_fate(game: Game, place: Point, moved: bool, ditch: bool = False) -> Breach | None:
    """What the laws make of a bowl whose centre rests there; None for a live one.

    A toucher in the ditch is past the edge by right; only the sides can kill it.
    """
    radius = bowl_radius(game)
    edge = ditch_edge_m(game)
    if abs(place.x_m) - radius > assumed_rink_m(game) / 2 + _HAIR:
        name: BreachName = "bowl outside" if game.rink_m is not None else "outside any rink"
        return Breach(name=name, law="17.1.4" if moved else "17.1.6")
    if ditch:
        return None
    if place.y_m > (assumed_edge_m(game) if edge is None else edge) + _HAIR:
        return Breach(name="past any ditch" if edge is None else "past the ditch", law="17.1.1")
    if place.y_m - radius < SHORTEST_LIVE_M - _HAIR:
        return Breach(name="bowl too short", law="17.1.3")
    return None


def jack_fate(game: Game, place: Point, ditch: bool = False) -> Breach | None:
    """What the laws make of a jack whose centre came to rest there; None for a live one.

    A jack in the front ditch is live within the sides.
    """
    edge = ditch_edge_m(game)
    if abs(place.x_m) - jack_radius(game) > assumed_rink_m(game) / 2 + _HAIR:
        return Breach(name="jack outside" if game.rink_m is not None else "outside any rink", law="19")
    if ditch:
        return None
    if place.y_m > (assumed_edge_m(game) if edge is None else edge) + _HAIR:
        return Breach(name="past any ditch" if edge is None else "past the ditch", law="18.1")
    if place.y_m < SHORTEST_REBOUND_M - _HAIR:
        return Breach(name="jack too short", law="19")
    return None
