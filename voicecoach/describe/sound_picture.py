"""The head as places for a sound picture: where each body lies from the jack, in walking order."""

from typing import Literal

from voicecoach.describe.order import levels
from voicecoach.head.values import Picture

Piece = Literal["ours", "theirs", "jack"]


def bodies(picture: Picture) -> tuple[tuple[tuple[float, float], ...], tuple[Piece, ...]]:
    """Places (right of the jack, past it, metres) and whose each is; from the mat without a jack."""
    jack = picture.head.jack
    x_m, y_m = jack.x_m or 0.0, jack.y_m or 0.0
    walked = [body for level in levels(picture) for body in level]
    places = tuple((body.x_m - x_m, body.y_m - y_m) for body in walked)
    return places, tuple(body.lie.side if body.lie else "jack" for body in walked)
