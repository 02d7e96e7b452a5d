"""The walking order: from the mat up the rink, level bodies together, left before right.

Bodies are the live bowls, touchers in the ditch among them, and the jack where it has a place.
The nearest to the mat starts the first level; every body whose centre lies at most 0.3 m beyond
that starter belongs to it. The nearest body left over starts the next level, and so on to the far
edge. So each body has one level, whatever order it was called in. Within a level the bodies go
from left to right; two on one line go nearest the mat first, then ours, then by number, the jack
before any bowl.
"""

from typing import Literal, NamedTuple

from voicecoach.head.values import Lie, Picture
from voicecoach.understand.values import BowlName

LEVEL_M = 0.3
_ROUNDING_M = 1e-9  # 25.3 - 25.0 is a hair over 0.3 in binary


class Body(NamedTuple):
    """A bowl or the jack, with the centre of its footprint in the end's frame, metres."""

    x_m: float
    y_m: float
    lie: Lie | None
    """None for the jack."""

    @property
    def name(self) -> BowlName | Literal["jack"]:
        """What the walking list calls it."""
        return BowlName(side=self.lie.side, number=self.lie.number) if self.lie else "jack"


def levels(picture: Picture) -> tuple[tuple[Body, ...], ...]:
    """The bodies of the head, level by level in walking order."""
    waiting = sorted(_bodies(picture), key=lambda body: body.y_m)
    found: list[tuple[Body, ...]] = []
    while waiting:
        beyond = waiting[0].y_m + LEVEL_M + _ROUNDING_M
        level = [body for body in waiting if body.y_m <= beyond]
        found.append(tuple(sorted(level, key=_left_to_right)))
        waiting = waiting[len(level) :]
    return tuple(found)


def order(picture: Picture) -> tuple[BowlName | Literal["jack"], ...]:
    """The walking list: every live bowl, and the jack in its place."""
    return tuple(body.name for level in levels(picture) for body in level)


def _bodies(picture: Picture) -> list[Body]:
    bodies = [
        Body(lie.place.x_m, lie.place.y_m, lie)
        for lie in picture.lies
        if lie.state != "dead" and lie.place is not None
    ]
    jack = picture.head.jack
    if jack.state != "dead" and jack.place is not None:
        bodies.append(Body(jack.place.x_m, jack.place.y_m, None))
    return bodies


def _left_to_right(body: Body) -> tuple[float, float, str, int]:
    """Left before right; the rest only settles ties."""
    if body.lie is None:
        return (body.x_m, body.y_m, "", 0)
    return (body.x_m, body.y_m, body.lie.side, body.lie.number)
