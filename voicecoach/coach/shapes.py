"""The marks of bowls and jack, the same in every drawing: a full disc is ours, a diamond in a ring theirs."""

from collections.abc import Iterator

from markupsafe import Markup

from voicecoach.coach.svg import tag
from voicecoach.understand.values import Side

RING_MM = 45
"""How far out of a bowl's edge the ring round it lies."""


def bowl(side: Side, radius: float) -> Iterator[Markup]:
    """A bowl round the origin, in classes `edge` and `mark`."""
    yield tag("circle", r=radius, class_="edge")
    if side == "theirs":
        yield tag("path", d=f"M0 {-radius}L{radius} 0 0 {radius} {-radius} 0z", class_="mark")


def ring(radius: float) -> Markup:
    """What marks the bowl of the note."""
    return tag("circle", r=radius + RING_MM, class_="named")
