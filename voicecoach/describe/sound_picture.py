"""The head as places for a sound picture: where each body lies from the jack, in walking order."""

from typing import Literal

from voicecoach.describe.order import levels
from voicecoach.head.values import Picture, Point

Piece = Literal["ours", "theirs", "jack"]


def bodies(picture: Picture) -> tuple[tuple[tuple[float, float], ...], tuple[Piece, ...]]:
    """Places (right of the jack, past it, metres) and whose each is; from the mat without a jack."""
    origin = picture.head.jack.place or Point(0.0, 0.0)
    walked = [body for level in levels(picture) for body in level]
    places = tuple(Point(body.x_m, body.y_m).seen_from(origin) for body in walked)
    return places, tuple(body.lie.side if body.lie else "jack" for body in walked)
