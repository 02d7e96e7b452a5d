"""One seeded sample of whole heads: every doubt drawn at once, each jack move shared by all bowls.

The draws are evenly spread over their distribution and only shuffled against each other (Latin
hypercube), so that two thousand heads give every probability to about one per cent. They come
from constants and names alone: the same head always gives the same sample.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from statistics import NormalDist

import numpy as np
from numpy.random import default_rng
from numpy.typing import NDArray

from voicecoach.head.blend import by_tape_alone, of_move, placed, steps
from voicecoach.head.bodies import Seen, name_of
from voicecoach.head.estimate import TAPE_SD_M, Floats, origin_of
from voicecoach.head.values import Call, Head, JackMove, Point
from voicecoach.understand.values import BowlName

HEADS = 2048
"""Whole heads in the sample."""
_SEED = 20140101
_SIDES = {"ours": 0, "theirs": 1}
_JACK = 2
Points = tuple[Floats, Floats]


@dataclass(frozen=True)
class Path:
    """Where the jack lay after each of its moves, seen from where it lay first."""

    called: tuple[Point, ...]
    sampled: tuple[Points, ...]


def path_of(head: Head) -> Path:
    """The jack's way through this end."""
    return _path(head.jack_moves)


@lru_cache(maxsize=8)
def _path(moves: tuple[JackMove, ...]) -> Path:
    called: list[Point] = [Point(0.0, 0.0)]
    sampled: list[Points] = [(np.zeros(HEADS), np.zeros(HEADS))]
    for index, move in enumerate(moves):
        called.append(called[-1].shifted(move.dx_m, move.dy_m))
        if placed(move):
            sampled.append((np.full(HEADS, called[-1][0]), np.full(HEADS, called[-1][1])))
            continue
        made = of_move(move)
        right, past = made.sampled(*_draws(_JACK, index, 0))
        shift = (move.dx_m - made.point[0], move.dy_m - made.point[1])
        before = sampled[-1]
        sampled.append((before[0] + right + shift[0], before[1] + past + shift[1]))
    return Path(tuple(called), tuple(sampled))


def sampled(head: Head, lies: Seen, path: Path) -> Points:
    """Places of one bowl seen from the jack as it lies now, one for each sampled head.

    The sample is moved as a whole so that what was called lies where the bowl is filed.
    """
    places, at = _made(head, name_of(lies.bowl), lies.bowl.calls, path)
    return _from_the_jack(lies, path, places, at)


def _made(head: Head, name: BowlName, calls: Sequence[Call], path: Path) -> tuple[Points, Point]:
    """The sampled places that a bowl's calls make, and the called one, seen from where the jack lay first."""
    x, y, at = np.zeros(HEADS), np.zeros(HEADS), Point(0.0, 0.0)
    for index, step in enumerate(steps(head, calls)):
        draws = _draws(_SIDES[name.side], name.number, index)
        jack, jack_at = _origin(head, step.call, path)
        right, past = step.estimate.sampled(*draws)
        point = step.estimate.point
        if step.call.by:
            x, y, at = x + right, y + past, at.shifted(*point)
        elif step.call.stood == "tape" and index and not by_tape_alone(step.call):
            x, y = _taped((x, y), jack, math.hypot(*point), draws[0])
            at = jack_at.shifted(*point)
        else:
            a, b, c, d = step.weight
            dx, dy = jack[0] + right - x, jack[1] + past - y
            x, y = x + a * dx + b * dy, y + c * dx + d * dy
            ex, ey = jack_at[0] + point[0] - at[0], jack_at[1] + point[1] - at[1]
            at = at.shifted(a * ex + b * ey, c * ex + d * ey)
    return (x, y), at


def _origin(head: Head, call: Call, path: Path) -> tuple[Points, Point]:
    """What a call was made from: the jack as it lay then, or another bowl where it lies in each head."""
    jack, jack_at = path.sampled[call.jack_moves], path.called[call.jack_moves]
    if call.landmark is None:
        return jack, jack_at
    (x, y), made = _made(head, call.landmark.name, call.landmark.calls, path)
    lay = origin_of(call, jack_at)
    return (x + lay.x_m - made.x_m, y + lay.y_m - made.y_m), lay


def _from_the_jack(lies: Seen, path: Path, places: Points, at: Point) -> Points:
    jack, jack_at = path.sampled[-1], path.called[-1]
    filed, made = lies.place.seen_from(lies.jack), at.seen_from(jack_at)
    return places[0] - jack[0] + filed[0] - made[0], places[1] - jack[1] + filed[1] - made[1]


def _taped(places: Points, jack: Points, centre_m: float, normal: Floats) -> Points:
    """The same directions from the jack, at the tape's distance."""
    right, past = places[0] - jack[0], places[1] - jack[1]
    scale = (centre_m + TAPE_SD_M * normal) / np.maximum(np.hypot(right, past), TAPE_SD_M)
    return jack[0] + right * scale, jack[1] + past * scale


def share(condition: NDArray[np.bool_]) -> float:
    """How large a share of the sampled heads meets a condition."""
    return int(np.count_nonzero(condition)) / len(condition)


@lru_cache(maxsize=256)
def _draws(body: int, number: int, call: int) -> tuple[Floats, Floats]:
    """Standard normal and uniform draws that belong to one call of one body."""
    random = default_rng((_SEED, body, number, call))
    normal, uniform = _quantiles()
    return random.permutation(normal), random.permutation(uniform)


@lru_cache(maxsize=1)
def _quantiles() -> tuple[Floats, Floats]:
    """The middles of so many equal shares of the standard normal and of -1 to 1."""
    shares = (np.arange(HEADS) + 0.5) / HEADS
    inverse = NormalDist().inv_cdf
    return np.array([inverse(float(share)) for share in shares]), 2 * shares - 1
