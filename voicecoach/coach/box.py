"""How much of the green a drawing shows: the same for every moment of an end, so that nothing jumps."""

from collections.abc import Iterable, Mapping, Sequence

from voicecoach.coach.svg import mm
from voicecoach.head.bounds import ditch_edge_m
from voicecoach.head.values import Game, Picture

FACE_M = 1.0
"""Radius of the ring round the jack, from the jack's edge, where lengths are metres."""
MARGIN_M = 0.45
NOTES_M = 0.4
"""Room below for the scale and the way to the mat."""
LEAST_M = 3.2
TALL = 1.6
"""A drawing is at most so many times as high as it is wide, or its words would be too small to read."""
NEAR_M = 0.6
"""A rink line or ditch this close to what lies there is drawn with it."""
HAIR_M = 0.03
"""Room round an outline of doubt, for its own stroke."""

Box = tuple[int, int, int, int]
"""Left, top, width, height; whole millimetres, down the page."""
Extent = tuple[float, float]
"""How far an outline of doubt reaches across and along, metres."""


def box(
    pictures: Iterable[Picture], ring_m: float, reach: Mapping[int, Sequence[Extent]] | None = None
) -> Box | None:
    """What shows every body of these heads with its doubt, the ring round each jack, and the lines close by.

    `reach` has, for the place of a picture, how far the doubt of each of its lies reaches.
    """
    pictures = tuple(pictures)
    bodies = [
        point for at, seen in enumerate(pictures) for point in _points(seen, ring_m, (reach or {}).get(at))
    ]
    if not bodies:
        return None
    left, right = (pick(x for x, _ in bodies) for pick in (min, max))
    near, far = (pick(y for _, y in bodies) for pick in (min, max))
    game = pictures[-1].head.game
    left, right = _as_far_as_the_lines(game, left - MARGIN_M, right + MARGIN_M)
    ditch = ditch_edge_m(game)
    far = max(far, ditch) if ditch is not None and ditch - far < NEAR_M else far
    near, far = near - MARGIN_M - NOTES_M, far + MARGIN_M
    wider = max(0.0, LEAST_M - (right - left), (far - near) / TALL - (right - left)) / 2
    left, right = left - wider, right + wider
    return mm(left), -mm(far), mm(right - left), mm(far - near)


def _points(seen: Picture, ring_m: float, reach: Sequence[Extent] | None) -> Iterable[tuple[float, float]]:
    for at, lie in enumerate(seen.lies):
        if lie.x_m is None or lie.y_m is None:
            continue
        yield lie.x_m, lie.y_m
        if reach is not None:
            across, along = (max(0.0, each + HAIR_M - MARGIN_M) for each in reach[at])
            yield lie.x_m - across, lie.y_m - along
            yield lie.x_m + across, lie.y_m + along
    jack = seen.head.jack
    if seen.head.bowls and jack.x_m is not None and jack.y_m is not None:
        for right, up in ((-1, -1), (1, 1)):
            yield jack.x_m + right * ring_m, jack.y_m + up * ring_m


def _as_far_as_the_lines(game: Game, left: float, right: float) -> tuple[float, float]:
    if game.rink_m is None:
        return left, right
    edge = game.rink_m / 2
    return (
        min(left, -edge - 0.1) if left + edge < NEAR_M else left,
        max(right, edge + 0.1) if edge - right < NEAR_M else right,
    )
