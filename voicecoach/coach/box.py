"""How much of the green a drawing shows: the same for every moment of an end, so that nothing jumps."""

from collections.abc import Iterable

from voicecoach.coach.svg import mm
from voicecoach.head.bounds import ditch_edge_m
from voicecoach.head.values import Head

FACE_M = 1.0
"""Radius of the ring round the jack, from the jack's edge: a bowl that touches it has a gap of a metre."""
MARGIN_M = 0.45
NOTES_M = 0.4
"""Room below for the scale and the way to the mat."""
LEAST_M = 3.2
NEAR_M = 0.6
"""A rink line or ditch this close to what lies there is drawn with it."""

Box = tuple[int, int, int, int]
"""Left, top, width, height; whole millimetres, down the page."""


def box(heads: Iterable[Head]) -> Box | None:
    """What shows every body of these heads, the ring round each jack, and the lines close by."""
    heads = tuple(heads)
    points = [point for head in heads for point in _points(head)]
    if not points:
        return None
    left, right = (pick(x for x, _ in points) for pick in (min, max))
    near, far = (pick(y for _, y in points) for pick in (min, max))
    left, right = _as_far_as_the_lines(heads[-1], left - MARGIN_M, right + MARGIN_M)
    ditch = ditch_edge_m(heads[-1].game)
    far = max(far, ditch) if ditch is not None and ditch - far < NEAR_M else far
    wider = max(0.0, LEAST_M - (right - left)) / 2
    left, right = left - wider, right + wider
    near, far = near - MARGIN_M - NOTES_M, far + MARGIN_M
    return mm(left), -mm(far), mm(right - left), mm(far - near)


def _points(head: Head) -> Iterable[tuple[float, float]]:
    for bowl in head.bowls:
        if bowl.place is not None:
            yield bowl.place
    if head.bowls and head.jack.place is not None:
        for right, up in ((-1, -1), (1, 1)):
            yield head.jack.place.shifted(right * FACE_M, up * FACE_M)


def _as_far_as_the_lines(head: Head, left: float, right: float) -> tuple[float, float]:
    if head.game.rink_m is None:
        return left, right
    edge = head.game.rink_m / 2
    return (
        min(left, -edge - 0.1) if left + edge < NEAR_M else left,
        max(right, edge + 0.1) if edge - right < NEAR_M else right,
    )
