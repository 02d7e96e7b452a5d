"""Places made anew when a distance is known better or bodies have another size: the gap is what counts."""

from voicecoach.head.bodies import Body, bowl_radius, jack_radius, name_of
from voicecoach.head.clock import hour_of
from voicecoach.head.estimate import Polar
from voicecoach.head.holding import filed_gap
from voicecoach.head.moves import jack_place, lying
from voicecoach.head.room import Point, free_place
from voicecoach.head.values import Bowl, Game, Head


def resized(head: Head, game: Game) -> tuple[Bowl, ...] | None:
    """Each bowl at its gap and hour with the new sizes; None where they don't fit."""
    if (game.bowl_mm, game.jack_mm) == (head.game.bowl_mm, head.game.jack_mm):
        return ()
    if head.jack.x_m is None and lying(head):
        return None
    bodies = [Body(None, *jack_place(head), jack_radius(game))]
    found: list[Bowl] = []
    for bowl in lying(head):
        spot = at_gap(head.model_copy(update={"game": game}), bowl, filed_gap(head, bowl), bodies)
        if spot is None:
            return None
        bodies.append(Body(name_of(bowl), *spot, bowl_radius(game)))
        found.append(bowl.model_copy(update={"x_m": spot[0], "y_m": spot[1]}))
    return tuple(found)


def at_gap(head: Head, bowl: Bowl, gap_m: float, bodies: list[Body]) -> Point | None:
    """The bowl's place at this gap on its hour, or beside it within the hour; None where there is no room."""
    jack = jack_place(head)
    hour = hour_of((bowl.x_m or 0.0) - jack[0], (bowl.y_m or 0.0) - jack[1])
    made = Polar(gap_m, hour, 0.5, head.game.relative_sd, bowl_radius(head.game) + jack_radius(head.game))
    spot = free_place(made, jack, bowl_radius(head.game), bodies)
    return None if isinstance(spot, list) else spot
