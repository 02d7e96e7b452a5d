"""Places made anew when a distance is known better or bodies have another size: the gap is what counts."""

from voicecoach.head.bodies import Body, bowl_radius, jack_radius, lying, name_of
from voicecoach.head.clock import hour_of
from voicecoach.head.estimate import Polar
from voicecoach.head.holding import filed_gap
from voicecoach.head.room import free_place
from voicecoach.head.values import Bowl, Game, Head, Point


def resized(head: Head, game: Game) -> tuple[Bowl, ...] | None:
    """Each bowl at its gap and hour with the new sizes; None where they don't fit."""
    if (game.bowl_mm, game.jack_mm) == (head.game.bowl_mm, head.game.jack_mm):
        return ()
    jack, found = head.jack.place, list[Bowl]()
    if jack is None:
        return None if lying(head) else ()
    bodies = [Body(None, jack, jack_radius(game))]
    for bowl, place in lying(head):
        gap = filed_gap(head.game, place, jack)
        spot = at_gap(game, place, jack, gap, bodies)
        if spot is None:
            return None
        bodies.append(Body(name_of(bowl), spot, bowl_radius(game)))
        found.append(bowl.put_at(spot))
    return tuple(found)


def at_gap(game: Game, place: Point, jack: Point, gap_m: float, bodies: list[Body]) -> Point | None:
    """A bowl's place at this gap on its hour, or beside it within the hour; None where there is no room."""
    hour = hour_of(*place.seen_from(jack))
    made = Polar(gap_m, hour, 0.5, game.relative_sd, bowl_radius(game) + jack_radius(game))
    spot = free_place(made, jack, bowl_radius(game), bodies)
    return None if isinstance(spot, list) else spot
