"""Small drawings of a whole game: the score, who held, where the bowls came to rest, how far from the jack.

Those that need no scale are fluid: they stand in per cent, so that their words keep their size on a narrow
screen. What they show stands in a table beside each.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from voicecoach.coach.figures import Figure, Trend
from voicecoach.coach.svg import fluid, per, stretched, tag
from voicecoach.describe.distances import FOOT_M
from voicecoach.understand.values import Side

Axis = Callable[[float], float]
"""From a place or a figure to a share of the drawing."""


@dataclass(frozen=True)
class Bar:
    """One bar of a drawing with a middle line: up is ours, down theirs."""

    value: int
    """Shots; negative for theirs."""
    sure: bool = True
    mark: str = ""
    """What stands on the middle line in place of a bar of no height."""
    under: str = ""
    """What stands below."""
    apart: bool = False
    """True for a bar that is set off from those before it."""


def bars(found: Sequence[Bar], said: str, class_: str, every: int = 1) -> Markup:
    """Bars above and below a middle line, their heights in figures; the words below every so many of them."""
    up = max([1, *(bar.value for bar in found)])
    down = max([1, *(-bar.value for bar in found)])
    top, foot = 0.13, 0.76
    unit = (foot - top) / (up + down)
    middle = top + up * unit
    wide = 1 / max(len(found) + sum(bar.apart for bar in found), 12)
    parts = [tag("line", x1="0%", x2="100%", y1=per(middle), y2=per(middle), class_="axis")]
    at = 0.0
    for place, bar in enumerate(found):
        at += wide * bar.apart
        if bar.apart:
            parts.append(tag("line", x1=per(at), x2=per(at), y1="2%", y2="98%", class_="grid"))
        parts += _bar(bar, at, wide, middle, unit)
        if bar.under and (place % every == 0 or bar.apart):
            parts.append(_words(bar.under, at + wide / 2, 0.97, "note"))
        at += wide
    return fluid(parts, said, class_)


def _bar(bar: Bar, at: float, wide: float, middle: float, unit: float) -> Iterator[Markup]:
    if not bar.value:
        yield _words(bar.mark or "0", at + wide / 2, middle, "mark", dy="0.36em")
        return
    high = abs(bar.value) * unit
    side: Side = "ours" if bar.value > 0 else "theirs"
    yield tag(
        "rect",
        x=per(at + 0.12 * wide),
        y=per(middle - high if bar.value > 0 else middle),
        width=per(0.76 * wide),
        height=per(high),
        class_=f"bar {side}" if bar.sure else f"bar {side} unsure",
    )
    y, dy = (middle - high, "-0.25em") if bar.value > 0 else (middle + high, "0.95em")
    yield _words(str(abs(bar.value)), at + wide / 2, y, "value", dy=dy)


def _words(words: str, x: float, y: float, class_: str, **more: str) -> Markup:
    return tag("text", [words], x=per(x), y=per(y), class_=class_, **more)


@dataclass(frozen=True)
class Spread:
    """Figures of one end or game, and the line through all of them."""

    points: Sequence[tuple[float, float]]
    """The place in the game, from 1, and the figure."""
    names: Sequence[str]
    """What stands below each place."""


def over_time(found: Spread, line: Trend, tick: float, unit: str, said: str) -> Markup:
    """Each figure, the line of least squares and the band in which it lies ninety-five times in a hundred."""
    places = max(len(found.names), 6)
    most = max([tick, *(value for _, value in found.points)]) * 1.05

    def x(place: float) -> float:
        return 0.07 + 0.93 * (place - 0.5) / places

    def y(value: float) -> float:
        return 0.04 + 0.82 * (1 - max(0.0, min(value, most)) / most)

    step = max(1, round(most / tick / 4))
    ticks = [tick * number for number in range(0, int(most / tick) + 1, step)]
    parts = [
        tag("line", x1="7%", x2="100%", y1=per(y(value)), y2=per(y(value)), class_="grid") for value in ticks
    ]
    parts += [
        _words(f"{round(value / tick * (3 if unit == 'ft' else 1))}", 0.03, y(value), "note", dy="0.35em")
        for value in ticks
    ]
    every = max(1, -(-len(found.names) // 12))
    parts += [
        _words(name, x(place), 0.98, "note")
        for place, name in enumerate(found.names, start=1)
        if (place - 1) % every == 0
    ]
    parts.append(stretched(_line_and_dots(found, line, x, y)))
    return fluid(parts, said, "over-time")


def _line_and_dots(found: Spread, line: Trend, x: Axis, y: Axis) -> Iterator[Markup]:
    if line.slope is not None:
        ends = [1 + (len(found.names) - 1) * part / 12 for part in range(13)]
        upper = [(x(end), y(line.at(end)[0] + line.at(end)[1])) for end in ends]
        lower = [(x(end), y(line.at(end)[0] - line.at(end)[1])) for end in reversed(ends)]
        yield tag("path", d=_path([*upper, *lower]) + "z", class_="band")
        yield tag(
            "path", d=_path([(x(end), y(line.at(end)[0])) for end in (ends[0], ends[-1])]), class_="line"
        )
    yield tag(
        "path", d="".join(f"{_path([(x(at), y(value))])}h0" for at, value in found.points), class_="dots"
    )


def _path(points: Sequence[tuple[float, float]]) -> str:
    return "M" + "L".join(f"{100 * x:.2f} {100 * y:.2f}" for x, y in points)


def intervals(found: Sequence[Figure], names: Sequence[str], tick: float, unit: str, said: str) -> Markup:
    """A mean for each place with the interval in which it lies ninety-five times in a hundred."""
    places = max(len(found), 6)
    known = [(each.mean, each.half) for each in found if each.mean is not None and each.half is not None]
    high = max(0.0, *(mean + half for mean, half in known))
    low = min(0.0, *(mean - half for mean, half in known))
    tick *= next(
        share for share in (0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 50.0) if (high - low) / tick / share <= 5
    )

    def x(place: float) -> float:
        return 0.09 + 0.91 * (place - 0.5) / places

    def y(value: float) -> float:
        return 0.06 + 0.78 * (high - value) / max(high - low, 1e-9)

    lines = range(math.ceil(low / tick - 1e-9), math.floor(high / tick + 1e-9) + 1)
    parts = [
        tag(
            "line",
            x1="9%",
            x2="100%",
            y1=per(y(number * tick)),
            y2=per(y(number * tick)),
            class_="grid" if number else "axis",
        )
        for number in lines
    ]
    shown = FOOT_M if unit == "ft" else 1.0
    parts += [
        _words(f"{abs(number * tick / shown):.1f}", 0.04, y(number * tick), "note", dy="0.35em")
        for number in lines
    ]
    every = max(1, -(-len(names) // 14))
    parts += [
        _words(name, x(place), 0.98, "note")
        for place, name in enumerate(names, start=1)
        if (place - 1) % every == 0
    ]
    reach = "".join(
        _path([(x(place), y(each.mean - each.half)), (x(place), y(each.mean + each.half))])
        for place, each in enumerate(found, start=1)
        if each.mean is not None and each.half is not None
    )
    dots = "".join(
        f"{_path([(x(place), y(each.mean))])}h0"
        for place, each in enumerate(found, start=1)
        if each.mean is not None
    )
    parts.append(stretched([tag("path", d=reach, class_="reach"), tag("path", d=dots, class_="dots")]))
    return fluid(parts, said, "over-time")
