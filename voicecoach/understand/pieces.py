"""What the pieces that carry figures are worth: numbers, distances, hours, names."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from voicecoach.understand.chart import Maker
from voicecoach.understand.values import Unit

METRES: Mapping[str, float] = {"m": 1.0, "cm": 0.01, "mm": 0.001, "yd": 0.9144, "ft": 0.3048, "in": 0.0254}
"""Exact since the international yard and pound agreement, 1959."""
BY_BODY: Mapping[str, float] = {"pace": 0.75, "hand": 0.1, "finger": 0.02, "jack": 0.063}
"""A step, a hand's and a finger's breadth, a jack's width, metres (common practice, no source)."""
MAT_M = 0.6
"""A mat is 600 mm long (Laws of the Sport of Bowls, CM4, law 50)."""


class Gap(NamedTuple):
    """A said distance."""

    metres: float
    unit: Unit
    bare: bool = False
    """True for "two bowls": a distance only beside a direction."""


class Hour(NamedTuple):
    """A said hour on the clock face."""

    hour: float
    width: float
    bare: bool
    """True for "at three": an hour only beside a distance."""


def whole(captures: Mapping[str, Any]) -> int:
    """A whole number: what its words add up to."""
    return int(captures["n"])


def amount(captures: Mapping[str, Any]) -> float:
    """A number with its decimals."""
    figure: float = (
        captures.get("n", 0)
        + captures.get("tenths", 0) / 10
        + captures.get("hundredths", 0) / 100
        + captures.get("percent", 0) / 100
    )
    return round(figure, 6)


def gap_maker(bowl_m: float) -> Maker:
    """Turns the captures of a distance into metres; a bowl's width is `bowl_m`."""
    units = {**METRES, **BY_BODY, "mat": MAT_M, "bowl": bowl_m}

    def gap(captures: Mapping[str, Any]) -> Gap | None:
        unit = captures["u"]
        metres = (
            captures.get("n", 0) * units[unit]
            + captures.get("percent", 0) / 100
            + captures.get("feet", 0) * METRES["ft"]
            + captures.get("inches", 0) * METRES["in"]
        )
        bare = bool(captures.get("bare"))
        said_in: Unit = "cm" if unit == "mm" or unit in BY_BODY else unit
        return Gap(round(metres, 6), said_in, bare) if metres > 0 else None

    return gap


def hour(captures: Mapping[str, Any]) -> Hour:
    """The hour in (0, 12]: half past twelve is 0.5, ten to four 3 and five sixths."""
    minutes = captures.get("past", 0) - captures.get("before", 0)
    said = (captures["h"] + captures.get("half", 0.0) + minutes / 60) % 12
    return Hour(round(said, 6) or 12.0, captures["width"], captures.get("bare", False))
