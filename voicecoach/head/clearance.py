"""Bodies held against the swept path of a bowl: blocked, tight or clear, and how surely.

Blocked: a body's centre lies nearer to the curve, before the target, than the two radii together. Tight:
nearer than that and one spread of the player's line there, which grows with the distance run. A body
counts while the bowl comes past it: what lies beyond the target, or level with it and clear of the
curve's end, is in nobody's way.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from voicecoach.head.curve import Curve
from voicecoach.head.estimate import Floats
from voicecoach.head.values.looks import Openness
from voicecoach.understand.values import BowlName

CLEAR, TIGHT, BLOCKED = 0, 1, 2
STATES: tuple[Openness, Openness, Openness] = ("clear", "tight", "blocked")
Levels = NDArray[np.int8]


@dataclass(frozen=True)
class Obstacle:
    """A body before the target, as filed and as sampled."""

    name: BowlName | Literal["jack"]
    x_m: float
    y_m: float
    radius_m: float
    sampled: tuple[Floats, Floats] | None = None
    """Its place in each sampled head, in the end's frame; None where it is in no doubt."""
    reach_m: float = 0.0
    """The farthest of those places from the filed one, metres."""


@dataclass(frozen=True)
class Passing:
    """How the curve passes one body as filed."""

    obstacle: Obstacle
    clearance_m: float
    spread_m: float
    """The spread of the player's line there."""
    left: bool
    """True where the body lies left of the curve."""
    level: int
    counts: bool
    """False for what lies beyond the target."""
    run: float
    """The share of the length that the bowl has run there."""


@dataclass(frozen=True)
class Sweep:
    """A bowl's own size and the spread of its line at the target, metres, with its curve."""

    curve: Curve
    radius_m: float
    spread_m: float

    def passing(self, obstacles: list[Obstacle]) -> list[Passing]:
        """How it passes each body as filed."""
        if not obstacles:
            return []
        x, y, radius = (
            np.array([getattr(each, name) for each in obstacles]) for name in ("x_m", "y_m", "radius_m")
        )
        near = self.curve.nearest(x, y)
        gaps = near.distance_m - radius - self.radius_m
        spreads = self.spread_m * near.run
        levels = _levels(gaps, spreads, near.ends)
        counts = ~near.ends | (gaps < 0)
        return [
            Passing(
                obstacle=each,
                clearance_m=float(gaps[i]),
                spread_m=float(spreads[i]),
                left=bool(near.left[i]),
                level=int(levels[i]),
                counts=bool(counts[i]),
                run=float(near.run[i]),
            )
            for i, each in enumerate(obstacles)
        ]

    def sampled(self, obstacle: Obstacle, curve: Curve) -> Levels:
        """How it passes a body in each sampled head; `curve` has the target as it is sampled."""
        x, y = obstacle.sampled or (np.array([obstacle.x_m]), np.array([obstacle.y_m]))
        near = curve.nearest(x, y)
        gaps = near.distance_m - obstacle.radius_m - self.radius_m
        return _levels(gaps, self.spread_m * near.run, near.ends)


def _levels(gaps: Floats, spreads: Floats, ends: NDArray[np.bool_]) -> Levels:
    """Clear, tight or blocked as a figure; what lies beyond the end counts only where it is run into."""
    levels = np.where(gaps < 0, BLOCKED, np.where((gaps < spreads) & ~ends, TIGHT, CLEAR))
    return levels.astype(np.int8)
