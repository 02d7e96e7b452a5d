"""What breaks a law and is asked about with the law's number: never silently taken, never blocked."""

from dataclasses import dataclass

from voicecoach.head.bounds import DITCH_CLEARANCE_M, ditch_edge_m
from voicecoach.head.spoken import law as law_words
from voicecoach.head.spoken import metres, millimetres
from voicecoach.head.values import Game

MAT_TO_REAR_DITCH_M = 2.0
MAT_TO_FRONT_DITCH_M = 25.0
GREEN_M = (31.0, 40.0)
RINK_M = (4.3, 5.8)
BOWL_MM = (112.0, 131.0)
JACK_MM = (63.0, 67.0)
"""Outdoor jacks are 63 to 64 mm, synthetic and indoor ones 63 to 67 mm: either may be in use."""
_HAIR = 1e-9


@dataclass(frozen=True)
class Breach:
    """A figure that a law does not allow."""

    law: str
    text: str
    """What is wrong, to be put into the question."""


def jack_breaches(game: Game, length_m: float) -> list[Breach]:
    """What is wrong with a jack set at this length (law 10.1.3 and 9.2; the figure as called).

    The law measures to the nearest point of the jack; a caller's figure is the measured length, and the
    jack's radius, 32 mm, lies well within its doubt: the figure itself is held against the law's.
    """
    found = []
    if length_m < game.shortest_jack_m - _HAIR:
        found.append(Breach("10.1.3", f"a jack at {metres(length_m)} is under twenty three metres"))
    edge = ditch_edge_m(game)
    if edge is not None and length_m > edge - DITCH_CLEARANCE_M + _HAIR:
        found.append(Breach("9.2", f"a jack at {metres(length_m)} is under two metres from the front ditch"))
    return found


def game_breaches(before: Game, game: Game) -> list[Breach]:
    """What is wrong with those figures of a game that are new in it."""
    found = []
    if _new(before.mat_m, game.mat_m) and game.mat_m is not None and game.mat_m < MAT_TO_REAR_DITCH_M - _HAIR:
        found.append(
            Breach("6.1.1", f"a mat line at {metres(game.mat_m)} is under two metres from the rear ditch")
        )
    edge = ditch_edge_m(game)
    if edge is not None and edge != ditch_edge_m(before) and edge < MAT_TO_FRONT_DITCH_M - _HAIR:
        found.append(Breach("6.1.1", "that leaves under twenty five metres from mat line to front ditch"))
    if _new(before.green_m, game.green_m):
        found += _outside(game.green_m, GREEN_M, "46.2", "a green of {} is not between {} and {}")
    if _new(before.rink_m, game.rink_m):
        found += _outside(game.rink_m, RINK_M, "49.1", "a rink of {} is not between {} and {}")
    if game.bowl_mm != before.bowl_mm:
        found += _size(game.bowl_mm, BOWL_MM, "52", "bowl")
    if game.jack_mm != before.jack_mm:
        found += _size(game.jack_mm, JACK_MM, "51.2", "jack")
    if game.jack_m is not None and _new(before.jack_m, game.jack_m):
        found += jack_breaches(game, game.jack_m)
    return found


def question(breaches: list[Breach]) -> str:
    """One question about all of them."""
    parts = [f"{breach.text}, {law_words(breach.law)}" for breach in breaches]
    return "; and ".join(parts) + ". Take it all the same?"


def laws(breaches: list[Breach]) -> list[str]:
    """Their laws' numbers, each once."""
    return list(dict.fromkeys(breach.law for breach in breaches))


def _new(before: float | None, now: float | None) -> bool:
    return now is not None and now != before


def _outside(value: float | None, bounds: tuple[float, float], law: str, text: str) -> list[Breach]:
    """The laws' "between" includes both ends (CM1, Foreword, read)."""
    if value is None or bounds[0] - _HAIR <= value <= bounds[1] + _HAIR:
        return []
    return [Breach(law, text.format(*(metres(figure) for figure in (value, *bounds))))]


def _size(value: float, bounds: tuple[float, float], law: str, what: str) -> list[Breach]:
    if bounds[0] - _HAIR <= value <= bounds[1] + _HAIR:
        return []
    low, high = (millimetres(bound) for bound in bounds)
    return [Breach(law, f"a {what} of {millimetres(value)} is not between {low} and {high}")]
