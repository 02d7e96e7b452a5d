"""Where the names of bowls stand in a drawing: beside each bowl, over no body, no other name and no line."""

import math
from collections.abc import Callable, Sequence
from typing import NamedTuple

Point = tuple[float, float]
_DIRECTIONS = tuple(
    (math.sin(k * math.pi / 6), math.cos(k * math.pi / 6)) for k in (3, 9, 2, 4, 8, 10, 0, 6, 1, 5, 7, 11)
)
"""Right and left first, where a name is looked for."""
_STEPS = (1.0, 1.9, 2.9)
_ON_A_LINE = 0.05
"""What a name that a line strikes through costs, in areas of a name: less than covering anything."""


class Sizes(NamedTuple):
    """Of a bowl's radius (its ring included) and of a name, in the drawing's units."""

    radius: float
    width: float
    height: float


class Taken(NamedTuple):
    """What a name must not cover."""

    bodies: Sequence[Point]
    names: Sequence[tuple[Point, float]]
    """The middle and the width of each name that stands already."""
    struck: Callable[[Point, Sizes], bool] = lambda _middle, _sizes: False
    """Whether a line goes through a name there."""


def place(bowls: Sequence[Point], sizes: Sizes, written: Sequence[Point] = ()) -> list[Point]:
    """The middle of each bowl's name; `written` are the middles of words that stand already."""
    names = [(middle, sizes.width) for middle in written]
    found = []
    for bowl in bowls:
        middle = beside(bowl, sizes, Taken(bowls, names))
        names.append((middle, sizes.width))
        found.append(middle)
    return found


def beside(bowl: Point, sizes: Sizes, taken: Taken) -> Point:
    """The first place beside a bowl that covers nothing, else the one that covers least."""
    best, least = bowl, math.inf
    for step in _STEPS:
        for way in _DIRECTIONS:
            at = _at(bowl, way, step, sizes)
            cost = covered(at, sizes, taken)
            if cost < least and taken.struck(at, sizes):
                cost += _ON_A_LINE * sizes.width * sizes.height
            if cost < least:
                best, least = at, cost
            if not cost:
                return best
    return best


def _at(bowl: Point, way: Point, step: float, sizes: Sizes) -> Point:
    out = sizes.radius + step * 0.65 * sizes.height
    return bowl[0] + way[0] * (out + sizes.width / 4), bowl[1] + way[1] * out


def covered(at: Point, sizes: Sizes, taken: Taken) -> float:
    """How much of bodies and names a name there would cover: 0 for none."""
    reach_x, reach_y = sizes.radius + sizes.width / 2, sizes.radius + sizes.height / 2
    bodies = sum(_shared(at, body, reach_x, reach_y) for body in taken.bodies)
    return bodies + sum(
        _shared(at, name, (sizes.width + width) / 2, sizes.height) for name, width in taken.names
    )


def _shared(at: Point, other: Point, reach_x: float, reach_y: float) -> float:
    """The area shared with something round this point."""
    wide, high = reach_x - abs(at[0] - other[0]), reach_y - abs(at[1] - other[1])
    return wide * high if wide > 0 and high > 0 else 0.0
