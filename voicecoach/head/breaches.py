"""What breaks a law and is asked about with the law's number: never silently taken, never blocked."""

from voicecoach.head.bounds import DITCH_CLEARANCE_M, assumed_edge_m, ditch_edge_m
from voicecoach.head.values import Breach, BreachName, Game

MAT_TO_REAR_DITCH_M = 2.0
MAT_TO_FRONT_DITCH_M = 25.0
GREEN_M = (31.0, 40.0)
RINK_M = (4.3, 5.8)
BOWL_MM = (112.0, 131.0)
JACK_MM = (63.0, 67.0)
"""Outdoor jacks are 63 to 64 mm, synthetic and indoor ones 63 to 67 mm: either may be in use."""
_HAIR = 1e-9


def jack_breaches(game: Game, length_m: float) -> list[Breach]:
    """What is wrong with a jack set at this length (law 10.1.3 and 9.2; the figure as called).

    The law measures to the nearest point of the jack; a caller's figure is the measured length, and the
    jack's radius, 32 mm, lies well within its doubt: the figure itself is held against the law's.
    """
    found = []
    if length_m < game.shortest_jack_m - _HAIR:
        found.append(Breach(name="jack short", law="10.1.3", figure=length_m))
    edge = ditch_edge_m(game)
    if edge is not None and length_m > edge - DITCH_CLEARANCE_M + _HAIR:
        found.append(Breach(name="jack near the ditch", law="9.2", figure=length_m))
    if edge is None and length_m > assumed_edge_m(game) - DITCH_CLEARANCE_M + _HAIR:
        found.append(Breach(name="jack far", law="46.2", figure=length_m))
    return found


def game_breaches(before: Game, game: Game) -> list[Breach]:
    """What is wrong with those figures of a game that are new in it."""
    found = []
    if _new(before.mat_m, game.mat_m) and game.mat_m is not None and game.mat_m < MAT_TO_REAR_DITCH_M - _HAIR:
        found.append(Breach(name="rear ditch", law="6.1.1", figure=game.mat_m))
    edge = ditch_edge_m(game)
    if edge is not None and edge != ditch_edge_m(before) and edge < MAT_TO_FRONT_DITCH_M - _HAIR:
        found.append(Breach(name="front ditch", law="6.1.1"))
    if _new(before.green_m, game.green_m):
        found += _outside("green length", "46.2", game.green_m, GREEN_M)
    if _new(before.rink_m, game.rink_m):
        found += _outside("rink width", "49.1", game.rink_m, RINK_M)
    if game.bowl_mm != before.bowl_mm:
        found += _outside("bowl size", "52", game.bowl_mm, BOWL_MM)
    if game.jack_mm != before.jack_mm:
        found += _outside("jack size", "51.2", game.jack_mm, JACK_MM)
    if game.jack_m is not None and _new(before.jack_m, game.jack_m):
        found += jack_breaches(game, game.jack_m)
    return found


def laws(breaches: list[Breach]) -> list[str]:
    """Their laws' numbers, each once."""
    return list(dict.fromkeys(breach.law for breach in breaches))


def _new(before: float | None, now: float | None) -> bool:
    return now is not None and now != before


def _outside(name: BreachName, law: str, value: float | None, bounds: tuple[float, float]) -> list[Breach]:
    """The laws' "between" includes both ends (CM1, Foreword, read)."""
    if value is None or bounds[0] - _HAIR <= value <= bounds[1] + _HAIR:
        return []
    return [Breach(name=name, law=law, figure=value, bounds=bounds)]
