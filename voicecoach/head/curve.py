"""The line that a bowl takes on a level green, in closed form.

A bowl slows at a constant rate a, so that with the length s still to run v^2 = 2as. Its bias turns it at
a rate k/v, so its curvature is k/v^2 = p/s with p = k/(2a). A curve whose curvature is p/s is an
equiangular spiral about the place of rest: it meets the direction to that place at one angle A
everywhere, and tan A = p. Nothing in it depends on the length of the shot.

    distance left    D exp(-t cot A)     t: how far the direction to the place of rest has turned
    length left      distance / cos A
    widest at        t = A

Constant slowing and a turn from the weight that lies off the middle: M. N. Brearley and B. A. Bolt, "The
dynamics of a bowl", Quarterly Journal of Mechanics and Applied Mathematics 11, 1958 (from memory); R. Cross,
"The trajectory of a ball in lawn bowls", American Journal of Physics 66, 1998 (introduction read). The
closed form is derived here and checked against the equations of motion in the tests.
"""

import math
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from voicecoach.head.estimate import Floats

AT_REST_M = 1e-3
"""The curve is followed to so near the place of rest: what it winds beyond that is smaller than grass."""
_STEPS = 8
Point = tuple[float, float]
Numbers = float | Floats


class Shoulder(NamedTuple):
    """Where the curve is widest."""

    up_m: float
    """From the mat line, along the straight line to the place of rest, metres."""
    aside_m: float
    """From that line, metres, never negative."""


class Nearest(NamedTuple):
    """The curve's nearest approach to places, one row of each for each place."""

    distance_m: Floats
    run: Floats
    """The share of the whole length that the bowl has run there, 0 to 1."""
    ends: NDArray[np.bool_]
    """True where that is the end of the curve: the place lies beyond it."""
    left: NDArray[np.bool_]
    """True where the place lies left of the curve, as the bowl runs."""


@dataclass(frozen=True)
class Curve:
    """From the centre of the mat line to a place of rest; places in the end's frame, metres."""

    x_m: Numbers
    """The place of rest; an array where it is in doubt, one for each sampled head."""
    y_m: Numbers
    angle: float
    """Between the first direction and the straight line to the place of rest, radians; above 0."""
    right: bool
    """True when the bowl goes out to the right and comes back to the left."""
    until_m: float = AT_REST_M
    """How far from the place of rest the curve ends: where the bowl meets what lies there, metres."""

    @property
    def distance_m(self) -> Numbers:
        """From the mat to the place of rest in a straight line."""
        return np.hypot(self.x_m, self.y_m)

    @property
    def length_m(self) -> Numbers:
        """Of the curve to the place of rest."""
        return self.distance_m / math.cos(self.angle)

    @property
    def shoulder(self) -> Shoulder:
        """The widest point."""
        left_m = float(self.distance_m) * math.exp(-self.angle / math.tan(self.angle))
        return Shoulder(float(self.distance_m) - left_m * math.cos(self.angle), left_m * math.sin(self.angle))

    def aside_m(self, up_m: float) -> float:
        """How far the first direction lies from the straight line, so far up that line."""
        return up_m * math.tan(self.angle)

    def points(self, count: int = 60) -> list[Point]:
        """Places along the curve, from the mat to its end, closer together where it bends more."""
        turns = np.linspace(0.0, float(np.max(self._last_turn())), count)
        places = self._to_green(np.exp((1j - 1 / math.tan(self.angle)) * turns))
        return [(float(place.real), float(place.imag)) for place in places]

    def nearest(self, x_m: Floats, y_m: Floats) -> Nearest:
        """The nearest approach of the curve to places; arrays as long as that of the place of rest, if any.

        Newton's method on the squared distance, begun where the bowl is as far from its place of rest as
        the place asked about is, then held against the end of the curve, nearest for what lies beyond.
        """
        to_rest = self._from_green(np.asarray(x_m) + 1j * np.asarray(y_m))
        last = np.asarray(self._last_turn())
        turn = np.clip(-math.tan(self.angle) * np.log(np.maximum(np.abs(to_rest), 1e-9)), 0.0, last)
        slope, longest = 1j - 1 / math.tan(self.angle), math.tan(self.angle)
        for _ in range(_STEPS):
            here = self._spiral(turn)
            away, way = here - to_rest, slope * here
            speed = way.real**2 + way.imag**2
            first = away.real * way.real + away.imag * way.imag
            second = speed + (away * (slope * way).conj()).real
            step = first / np.maximum(second, speed / 4)
            turn = np.clip(turn - np.clip(step, -longest, longest), 0.0, last)
        beyond = np.abs(self._spiral(turn) - to_rest) >= np.abs(self._spiral(last) - to_rest)
        turn = np.where(beyond, last, turn)
        here = self._spiral(turn)
        away = here - to_rest
        return Nearest(
            distance_m=np.abs(away) * self.distance_m,
            run=1.0 - np.abs(here),
            ends=turn >= last,
            left=((away * (-slope * here).conj()).imag > 0) == self.right,
        )

    def _spiral(self, turn: Floats) -> NDArray[np.complex128]:
        """From the bowl to the place of rest, in units of the whole distance; the straight line is real."""
        curve: NDArray[np.complex128] = np.exp((1j - 1 / math.tan(self.angle)) * turn)
        return curve

    def _last_turn(self) -> Numbers:
        """How far the direction to the place of rest has turned where the curve ends."""
        return math.tan(self.angle) * np.log(np.maximum(self.distance_m, self.until_m) / self.until_m)

    def _from_green(self, place: NDArray[np.complex128]) -> NDArray[np.complex128]:
        rest = np.asarray(self.x_m) + 1j * np.asarray(self.y_m)
        seen: NDArray[np.complex128] = np.atleast_1d((rest - place) / rest)
        return seen if self.right else seen.conj()

    def _to_green(self, seen: NDArray[np.complex128]) -> Any:
        rest = np.asarray(self.x_m) + 1j * np.asarray(self.y_m)
        return rest - rest * (seen if self.right else seen.conj())
