"""The player's lines to the jack on a head as it was left: both swept paths to scale, and what blocks."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from voicecoach import describe
from voicecoach.coach import shapes
from voicecoach.coach.box import box
from voicecoach.coach.svg import mm, picture, tag, text
from voicecoach.coach.wording import Words
from voicecoach.head import lines
from voicecoach.head.bodies import bowl_radius, jack_radius
from voicecoach.head.curve import Curve
from voicecoach.head.path import curve_to
from voicecoach.head.values import HandLook, Hands, Lie, Picture
from voicecoach.understand.values import LineAsked, Side

_SIZE = 0.034
"""Height of the words, as a share of the drawing's width."""
_POINTS = 45
SIDES: tuple[Side, Side] = ("ours", "theirs")


@dataclass(frozen=True)
class LinesDrawn:
    """Both lines to the jack, ready to be set."""

    svg: Markup
    sentences: tuple[str, ...]
    """The same in words."""


def lines_drawn(seen: Picture, name: str, words: Words) -> LinesDrawn | None:
    """Both hands' lines to the jack of this head; None without a bowl, or without a jack to bowl to.

    Args:
        seen: The head.
        name: What the end is called.
        words: How the page speaks.
    """
    head = seen.head
    frame = box([seen], words.measure.ring_m)
    target = lines.target_of(head, LineAsked(ask="hands"))
    if frame is None or target is None:
        return None
    found = lines.hands(head, target)
    size = _SIZE * max(frame[2], 0.8 * frame[3])
    parts = [
        *(_way(curve_to(head, target, look.hand), bowl_radius(head.game), look) for look in found.hands),
        *_bodies(seen, found, words, size),
    ]
    sentences = tuple(each.text for each in describe.hands_answer(found, seen, words.prefs))
    said = f"{name}: the lines to the jack, to scale, as seen from the mat. {' '.join(sentences)}"
    return LinesDrawn(picture(parts, frame, said, "ways", round(size)), sentences)


def outline(curve: Curve, radius_m: float, count: int = _POINTS) -> list[tuple[float, float]]:
    """The edge of what a bowl sweeps along a curve, all the way round: places in the end's frame, metres.

    Args:
        curve: The line of the bowl's middle.
        radius_m: Of the bowl.
        count: Places along each side.
    """
    middle = curve.points(count)
    left, right = [], []
    for at, (x, y) in enumerate(middle):
        before, after = middle[max(0, at - 1)], middle[min(len(middle) - 1, at + 1)]
        along = (after[0] - before[0], after[1] - before[1])
        share = radius_m / math.hypot(*along)
        left.append((x - along[1] * share, y + along[0] * share))
        right.append((x + along[1] * share, y - along[0] * share))
    return [*left, *reversed(right)]


def _way(curve: Curve, radius_m: float, look: HandLook) -> Markup:
    points = " ".join(f"{mm(x)},{-mm(y)}" for x, y in outline(curve, radius_m))
    return tag("polygon", points=points, class_=f"way {look.state}")


def _bodies(seen: Picture, found: Hands, words: Words, size: float) -> Iterator[Markup]:
    """The jack and every live bowl; those that block, or make a line tight, ringed and named.

    The bowls of a side are one path: the page has a picture of this kind for every end.
    """
    radius, jack = mm(bowl_radius(seen.head.game)), seen.head.jack.place
    if jack is not None:
        yield tag(
            "circle", r=mm(jack_radius(seen.head.game)), cx=mm(jack.x_m), cy=-mm(jack.y_m), class_="jack"
        )
    live = [lie for lie in seen.lies if lie.state == "live" and lie.place is not None]
    for side in SIDES:
        drawn = "".join(_mark(lie, radius) for lie in live if lie.side == side)
        if drawn:
            yield tag("path", d=drawn, class_=f"side {side}")
    named = [look.by for look in found.hands if look.by is not None and look.by != "jack"]
    ringed = [lie for lie in live if any((by.side, by.number) == (lie.side, lie.number) for by in named)]
    if ringed:
        yield tag("path", d="".join(_circle(lie, radius + shapes.RING_MM) for lie in ringed), class_="named")
    for lie in ringed:
        x, y = _at(lie)
        label = f"{words.letter(lie.side)}{lie.number}"
        yield text(label, x, y - radius - shapes.RING_MM - 0.7 * size, size, class_="name")


def _mark(lie: Lie, radius: int) -> str:
    """A full disc for ours, a diamond for theirs."""
    x, y = _at(lie)
    if lie.side == "ours":
        return _circle(lie, radius)
    return f"M{x} {y - radius}l{radius} {radius} {-radius} {radius} {-radius} {-radius}z"


def _circle(lie: Lie, radius: int) -> str:
    x, y = _at(lie)
    return (
        f"M{x - radius} {y}a{radius} {radius} 0 1 0 {2 * radius} 0a{radius} {radius} 0 1 0 {-2 * radius} 0z"
    )


def _at(lie: Lie) -> tuple[int, int]:
    assert lie.place is not None, "only bowls with a place are drawn"
    return mm(lie.place.x_m), -mm(lie.place.y_m)
