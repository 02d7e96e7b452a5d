"""Where the names of bowls stand in a drawing: beside each bowl, over no other bowl and no other name."""

import math
from collections.abc import Sequence
from typing import NamedTuple

Point = tuple[float, float]
_DIRECTIONS = tuple(
    (math.sin(k * math.pi / 6), math.cos(k * math.pi / 6)) for k in (3, 9, 2, 4, 8, 10, 0, 6, 1, 5, 7, 11)
)
"""Right and left first, where a name is looked for."""
_STEPS = (1.0, 1.9, 2.9)


class Sizes(NamedTuple):
    """Of a bowl's radius and of a name, in the drawing's units."""

    radius: float
    width: float
    height: float


def place(bowls: Sequence[Point], sizes: Sizes, written: Sequence[Point] = ()) -> list[Point]:
    """The middle of each bowl's name; `written` are the middles of words that stand already."""
    placed = list(written)
    for bowl in bowls:
        placed.append(_free(bowl, bowls, placed, sizes))
    return placed[len(written) :]


def _free(bowl: Point, bowls: Sequence[Point], names: Sequence[Point], sizes: Sizes) -> Point:
    """The first place that covers nothing, else the one that covers least."""
    best, least = bowl, math.inf
    for step in _STEPS:
        for way in _DIRECTIONS:
            at = _at(bowl, way, step, sizes)
            covered = _covered(at, bowls, names, sizes)
            if covered < least:
                best, least = at, covered
            if not covered:
                return best
    return best


def _at(bowl: Point, way: Point, step: float, sizes: Sizes) -> Point:
    out = sizes.radius + step * 0.65 * sizes.height
    return bowl[0] + way[0] * (out + sizes.width / 4), bowl[1] + way[1] * out


def _covered(at: Point, bowls: Sequence[Point], names: Sequence[Point], sizes: Sizes) -> float:
    """How much of other things a name there would cover: 0 for none."""
    reach_x, reach_y = sizes.radius + sizes.width / 2, sizes.radius + sizes.height / 2
    return _shared(at, bowls, reach_x, reach_y) + _shared(at, names, sizes.width, sizes.height)


def _shared(at: Point, others: Sequence[Point], reach_x: float, reach_y: float) -> float:
    """The area shared with others around these points."""
    shared = 0.0
    for x, y in others:
        wide, high = reach_x - abs(at[0] - x), reach_y - abs(at[1] - y)
        if wide > 0 and high > 0:
            shared += wide * high
    return shared
