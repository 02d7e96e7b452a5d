"""Small drawings of a whole game: who held, where the bowls came to rest, how the distance changed."""

from collections.abc import Sequence
from itertools import groupby

from markupsafe import Markup

from voicecoach.coach.bowling import Delivered, Hand
from voicecoach.coach.svg import mm, picture, tag, text
from voicecoach.head.values import Holding

CELL, UNIT, MOST = 40, 22, 4
"""Width of a moment, height of a shot, and the most shots that are drawn."""
MARKS: dict[Hand | None, str] = {"forehand": "M-45 40L45 40 0 -45z", "backhand": "M-45 -40L45 -40 0 45z"}
"""Triangles, up for the forehand and down for the backhand; a circle where no hand was said."""


def held(holdings: Sequence[Holding | None]) -> Markup:
    """One bar a moment: up while we hold, down while they do, as high as the shots; hollow when unsure."""
    middle = MOST * UNIT + 6
    bars = [
        _bar(place * CELL, middle, holding) for place, holding in enumerate(holdings) if holding is not None
    ]
    width = max(len(holdings), 12) * CELL
    line = tag("line", x1=0, x2=width, y1=middle, y2=middle, class_="axis")
    said = "Who held after each note. The sentence beside it counts them."
    return picture([line, *bars], (0, 0, width, 2 * middle), said, "held")


def _bar(x: int, middle: int, holding: Holding) -> Markup:
    if holding.side is None:
        return tag("circle", cx=x + CELL // 2, cy=middle, r=5, class_="level")
    height = UNIT * min(holding.shots or 1, MOST)
    return tag(
        "rect",
        x=x + 5,
        y=middle - height if holding.side == "ours" else middle,
        width=CELL - 10,
        height=height,
        class_=f"bar {holding.side}" if holding.sure else f"bar {holding.side} unsure",
    )


def scatter(bowls: Sequence[Delivered]) -> Markup:
    """Every one of our bowls at first rest, seen from the jack."""
    reach = max([1.5, *(max(abs(one.across_m), abs(one.along_m)) for one in bowls)]) + 0.3
    half = mm(reach)
    size = 0.075 * half
    parts = [
        tag("line", x1=-half, x2=half, y1=0, y2=0, class_="axis"),
        tag("line", x1=0, x2=0, y1=-half, y2=half, class_="axis"),
        tag("circle", r=1000, class_="face"),
        text("1 m", 1000 + size, -0.6 * size, size, class_="note"),
        *(_spot(one, reach) for one in bowls),
        tag("circle", r=32, class_="jack"),
    ]
    said = "Where our bowls came to rest, seen from the jack. The table beside it says the same in figures."
    return picture(parts, (-half, -half, 2 * half, 2 * half), said, "scatter")


def _spot(one: Delivered, reach: float) -> Markup:
    place = f"translate({mm(one.across_m)} {-mm(one.along_m)}) scale({reach / 2:.2f})"
    mark = MARKS.get(one.hand)
    if mark is None:
        return tag("circle", r=42, transform=place, class_="spot")
    return tag("path", d=mark, transform=place, class_="spot")


def by_end(bowls: Sequence[Delivered]) -> Markup:
    """Distance from the jack, end by end: each bowl, and a bar at the mean."""
    ends = [(end, list(part)) for end, part in groupby(bowls, key=lambda one: one.end)]
    most = max([1.0, *(one.gap_m for one in bowls)])
    high, wide = 300, 46 * max(len(ends), 12) + 60
    parts = [tag("line", x1=40, x2=wide, y1=high, y2=high, class_="axis")]
    for metre in range(int(most) + 1):
        y = high - high * metre / most * 0.95
        parts.append(text(f"{metre} m", 18, y, 16, class_="note"))
        parts.append(tag("line", x1=40, x2=wide, y1=round(y), y2=round(y), class_="grid"))
    for place, (end, part) in enumerate(ends):
        x = 64 + 46 * place
        heights = [high - high * one.gap_m / most * 0.95 for one in part]
        parts += [tag("circle", cx=x, cy=round(y), r=5, class_="spot") for y in heights]
        mean = round(sum(heights) / len(heights))
        parts.append(tag("line", x1=x - 14, x2=x + 14, y1=mean, y2=mean, class_="mean"))
        parts.append(text(str(end), x, high + 16, 16, class_="note"))
    said = "Distance of our bowls from the jack, end by end. The table beside it says the same in figures."
    return picture(parts, (0, -10, wide, high + 44), said, "by-end")
