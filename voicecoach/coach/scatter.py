"""Where bowls came to rest, seen from the jack, with the mean and the ellipse in which it lies."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from voicecoach.coach.deliveries import Delivered
from voicecoach.coach.figures import Ellipse
from voicecoach.coach.labels import Sizes, place
from voicecoach.coach.measure import Measure
from voicecoach.coach.svg import mm, picture, tag, text
from voicecoach.understand.values import Side

ROOM_M = 0.25
LEAST_M = 1.4
_LABEL = 0.085
"""Height of a letter, as a share of a drawing's width."""


def reach_m(bowls: Sequence[Delivered], found: Sequence[Ellipse]) -> float:
    """How far from the jack a drawing must show, across and along, for these bowls and their means."""
    far = [max(abs(one.across_m), abs(one.along_m or 0.0)) for one in bowls if one.across_m is not None]
    return max([LEAST_M, *far, *(_far(each) for each in found)]) + ROOM_M


@dataclass(frozen=True)
class Sheet:
    """How far from the jack a drawing shows, its units, and what it is said to be."""

    reach_m: float
    measure: Measure
    said: str


def scatter(bowls: Sequence[Delivered], mean: Ellipse | None, side: Side, sheet: Sheet) -> Markup:
    """Every bowl with a place, and the mean of them all."""
    dots = "".join(
        f"M{mm(one.across_m)} {-mm(one.along_m)}h0"
        for one in bowls
        if one.across_m is not None and one.along_m is not None
    )
    parts = [*_ground(sheet), tag("path", d=dots or "M0 0", class_=f"dots {side}")]
    if mean is not None:
        parts += [_ellipse(mean, side), _cross(mean, sheet.reach_m)]
    return _square(parts, sheet)


def means(found: Sequence[tuple[str, Ellipse]], side: Side, sheet: Sheet) -> Markup:
    """The mean of each part, named, and the ellipse in which it lies."""
    parts = [*_ground(sheet)]
    parts += [_ellipse(each, side) for _, each in found]
    size = _LABEL * 2 * mm(sheet.reach_m)
    middles = [(mm(each.across), -mm(each.along)) for _, each in found]
    dots = "".join(f"M{x} {y}h0" for x, y in middles)
    parts.append(tag("path", d=dots or "M0 0", class_=f"dots {side} middles"))
    names = place(middles, Sizes(0.15 * size, 0.7 * size, 0.8 * size), [(0, 0)])
    parts += [text(name, x, y, size, class_="name") for (name, _), (x, y) in zip(found, names, strict=True)]
    return _square(parts, sheet)


def means_reach_m(found: Sequence[Ellipse]) -> float:
    """How far from the jack a drawing of these means must show."""
    return max([0.5, *(_far(each) for each in found)]) * 1.15


def _far(each: Ellipse) -> float:
    """How far an ellipse reaches, across and along."""
    cos, sin = math.cos(each.turn), math.sin(each.turn)
    across = abs(each.across) + math.hypot(each.long * cos, each.short * sin)
    return max(across, abs(each.along) + math.hypot(each.long * sin, each.short * cos))


def _ground(sheet: Sheet) -> list[Markup]:
    half = mm(sheet.reach_m)
    return [
        tag("line", x1=-half, x2=half, y1=0, y2=0, class_="axis"),
        tag("line", x1=0, x2=0, y1=-half, y2=half, class_="axis"),
        tag("circle", r=mm(sheet.measure.ring_m), class_="face"),
        tag("circle", r=32, class_="jack"),
    ]


def _ellipse(each: Ellipse, side: Side) -> Markup:
    return tag(
        "ellipse",
        rx=mm(each.long),
        ry=mm(each.short),
        transform=f"translate({mm(each.across)} {-mm(each.along)}) rotate({-math.degrees(each.turn):.1f})",
        class_=f"mean {side}",
    )


def _cross(each: Ellipse, reach: float) -> Markup:
    x, y, arm = mm(each.across), -mm(each.along), round(0.045 * mm(reach))
    return tag("path", d=f"M{x - arm} {y}h{2 * arm}M{x} {y - arm}v{2 * arm}", class_="cross")


def _square(parts: Sequence[Markup], sheet: Sheet) -> Markup:
    half = mm(sheet.reach_m)
    size = round(_LABEL * 2 * half)
    return picture(parts, (-half, -half, 2 * half, 2 * half), sheet.said, "scatter", size)
