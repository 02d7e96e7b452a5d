"""Heads by chance: legal ones, so that practice is like play."""

import math
import random
from collections.abc import Iterator

from voicecoach.coach.marks import FLOOR_M
from voicecoach.head import begin, decide, evolve, picture
from voicecoach.head.clock import hour_of
from voicecoach.head.values import Event, Game, Picture, Play
from voicecoach.understand.values import BowlRested, Note, Side

SPREAD_ACROSS_M, SPREAD_ALONG_M = 0.7, 1.2
"""How bowls scatter round the jack: farther along the rink than across it (our own choice)."""
FARTHEST_M = 4.0
_ROUND_M = 0.05


def places(count: int, chance: random.Random, game: Game | None = None) -> tuple[tuple[float, float], ...]:
    """So many places for bowls round a jack, right and past of its middle, metres; no two overlap."""
    played = game or Game()
    bowl_m, reach_m = played.bowl_mm / 1000, (played.bowl_mm + played.jack_mm) / 2000
    found: list[tuple[float, float]] = []
    while len(found) < count:
        x_m, y_m = chance.gauss(0, SPREAD_ACROSS_M), chance.gauss(0, SPREAD_ALONG_M)
        away_m = math.hypot(x_m, y_m)
        clear = all(math.dist((x_m, y_m), other) >= bowl_m for other in found)
        if reach_m + FLOOR_M <= away_m <= FARTHEST_M and clear:
            found.append((x_m, y_m))
    return tuple(found)


def sides(count: int) -> Iterator[tuple[Side, int]]:
    """The bowls of an end, ours first, turn by turn."""
    for index in range(count):
        side: Side = "theirs" if index % 2 else "ours"
        yield side, index // 2 + 1


def head(count: int, chance: random.Random) -> Picture:
    """A head that was called, to five centimetres and whole hours, as a director would have called it."""
    play = begin()
    for side, number in sides(count):
        while True:
            ((x_m, y_m),) = places(1, chance)
            gap_m = math.hypot(x_m, y_m) - (play.head.game.bowl_mm + play.head.game.jack_mm) / 2000
            called = max(_ROUND_M, round(gap_m / _ROUND_M) * _ROUND_M)
            hour = float(round(hour_of(x_m, y_m)) % 12 or 12)
            note = BowlRested(side=side, number=number, gap_m=round(called, 2), unit="cm", hour=hour)
            after = _filed(play, note)
            if after is not None:
                play = after
                break
    return picture(play.head)


def _filed(play: Play, note: Note) -> Play | None:
    """The play after a note; None where it can't lie there."""
    result = decide(play, note)
    return evolve(play, result) if isinstance(result, Event) else None
