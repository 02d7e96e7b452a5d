"""A slow, obvious referee for the tests: points of circles one by one, and the laws as a table.

It shares nothing with the engine but the notes: places are complex numbers (past the jack is +1j), gaps
are the shortest of all distances between points of two rims, and each law is one line.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

import numpy as np

RIM = np.exp(2j * np.pi * np.arange(180) / 180)
"""Points of a circle of radius one, two degrees apart."""
COARSE_M = 0.0925 * (1 - math.cos(math.radians(1))) * 2
"""How much longer the shortest distance between such points can be than the true gap."""

LAWS: dict[str, Callable[[dict[str, Any]], bool]] = {
    "17.1.1: in the ditch and no toucher": lambda b: b["ditch"] and not b["toucher"],
    "17.1.3: nearest point under 14 m from the mat line": lambda b: b["place"].imag - b["radius"] < 14,
    "17.1.6: wholly outside the sides of the rink": lambda b: (
        abs(b["place"].real) - b["radius"] > b["rink"] / 2
    ),
    "called dead": lambda b: b["dead"],
}
"""What makes a bowl dead; it lives while none of them holds."""


def brute_gap(one: complex, r_one: float, other: complex, r_other: float) -> float:
    """The shortest distance between any two points of two rims; 0 for rims that cross."""
    if abs(one - other) < r_one + r_other:
        return 0.0
    rims = (one + r_one * RIM)[:, None], (other + r_other * RIM)[None, :]
    return float(np.abs(rims[0] - rims[1]).min())


def at(jack: complex, gap_m: float, hour: float, radii_m: float) -> complex:
    """The centre of a bowl called from the jack: 12 is straight up the rink, the hours go clockwise."""
    up_the_rink, clockwise = 1j, cmath.exp(-1j * math.radians(30 * hour))
    return jack + (gap_m + radii_m) * up_the_rink * clockwise


@dataclass
class Referee:
    """Keeps an end by hand."""

    bowl_m: float = 0.121
    jack_m: float = 0.064
    rink_m: float = 1000.0
    jack: complex = 27j
    bowls: dict[tuple[str, int], dict[str, Any]] = field(default_factory=dict)

    def rests(self, side: str, number: int, gap_m: float, hour: float, **life: bool) -> None:
        """A bowl comes to rest."""
        self.bowls[(side, number)] = {
            "place": at(self.jack, gap_m, hour, (self.bowl_m + self.jack_m) / 2),
            "radius": self.bowl_m / 2,
            "rink": self.rink_m,
            "toucher": life.get("toucher", False) or gap_m == 0,
            "ditch": life.get("ditch", False),
            "dead": life.get("dead", False),
        }

    def moves_jack(self, by_m: float, hour: float) -> None:
        """The jack moves; no bowl does."""
        self.jack = at(self.jack, by_m, hour, 0.0)

    def crowded(self, place: complex, radius_m: float, without_jack: bool = False) -> bool:
        """Whether a body there would come within a centimetre of another."""
        others = [(b["place"], self.bowl_m / 2) for b in self.bowls.values()]
        others += [] if without_jack else [(self.jack, self.jack_m / 2)]
        return any(abs(place - other) < radius_m + r + 0.01 for other, r in others)

    def dead(self, name: tuple[str, int]) -> list[str]:
        """The laws that make the bowl dead."""
        return [law for law, holds in LAWS.items() if holds(self.bowls[name])]

    def gaps(self) -> dict[tuple[str, int], float]:
        """The gap of every bowl that lives."""
        return {
            name: brute_gap(bowl["place"], self.bowl_m / 2, self.jack, self.jack_m / 2)
            for name, bowl in self.bowls.items()
            if not self.dead(name)
        }

    def hour(self, name: tuple[str, int]) -> float:
        """The hour of a bowl, 0 to 12."""
        way = (self.bowls[name]["place"] - self.jack) / 1j
        return -math.degrees(cmath.phase(way)) / 30 % 12

    def shots(self) -> tuple[str | None, int]:
        """Who holds and how many: law 23, by putting all bowls in order and counting from the front."""
        order = sorted((gap, side) for (side, _), gap in self.gaps().items())
        if not order or (len(order) > 1 and order[0][0] == order[1][0] and order[0][1] != order[1][1]):
            return None, 0
        count = 0
        for _, side in order:
            if side != order[0][1]:
                break
            count += 1
        return order[0][1], count

    def close(self) -> bool:
        """Whether two sides' bowls are too level for points two degrees apart to tell."""
        gaps = self.gaps()
        ours = [gap for (side, _), gap in gaps.items() if side == "ours"]
        theirs = [gap for (side, _), gap in gaps.items() if side == "theirs"]
        return any(abs(one - other) < 3 * COARSE_M for one in ours for other in theirs)
