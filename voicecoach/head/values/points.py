"""A place in an end's frame: the origin is the centre of the mat line, x to the right, y up the rink."""

from __future__ import annotations

from typing import NamedTuple


class Point(NamedTuple):
    """The centre of a body that has a place; a body without one has None."""

    x_m: float
    y_m: float

    def seen_from(self, origin: Point) -> tuple[float, float]:
        """How far right of another place it is, and how far past it, metres."""
        return self.x_m - origin.x_m, self.y_m - origin.y_m

    def shifted(self, right_m: float, past_m: float) -> Point:
        """The place so far further right and past."""
        return Point(self.x_m + right_m, self.y_m + past_m)


def point(x_m: float | None, y_m: float | None) -> Point | None:
    """A place; None where either half of it is missing."""
    return None if x_m is None or y_m is None else Point(x_m, y_m)
