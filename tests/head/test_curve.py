"""The line of a bowl against the equations of motion, what is published, and itself."""

import itertools
import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from tests.head.roller import nearest, rolled
from voicecoach.head.curve import Curve

ANGLES = st.floats(2.0, 22.0)
LENGTHS = st.floats(20.0, 38.0)


def curve(angle_deg: float = 10.0, right: bool = True, x_m: float = 0.0, y_m: float = 27.0) -> Curve:
    return Curve(x_m, y_m, math.radians(angle_deg), right)


def _motion(_time: float, state: NDArray[np.float64], slowing: float, bend: float) -> list[float]:
    """A rolling bowl: place, heading (clockwise from up the rink) and speed."""
    _x, _y, heading, speed = state
    return [speed * math.sin(heading), speed * math.cos(heading), -bend / speed, -slowing]


@pytest.mark.parametrize(("angle_deg", "length_m", "pace_s"), [(10, 27, 14), (5, 23, 11), (16, 35, 18)])
def test_the_closed_form_is_what_an_ode_solver_makes_of_the_equations_of_motion(
    angle_deg: float, length_m: float, pace_s: float
) -> None:
    # The equations are those of M. N. Brearley and B. A. Bolt, "The dynamics of a bowl", Quarterly Journal of
    # Mechanics and Applied Mathematics 11, 1958 (memory): constant slowing, a turn inverse to the speed.
    slowing = 2 * 27 / pace_s**2
    bend = 2 * slowing * math.tan(math.radians(angle_deg))
    line = curve(angle_deg, y_m=length_m)
    first = math.sqrt(2 * slowing * float(line.length_m))
    until = 0.999 * first / slowing
    solved: Any = solve_ivp(
        _motion,
        (0.0, until),
        [0.0, 0.0, math.radians(angle_deg), first],
        args=(slowing, bend),
        rtol=1e-10,
        atol=1e-12,
        dense_output=True,
    )
    assert solved.success
    assert math.hypot(solved.y[0, -1], solved.y[1, -1] - length_m) < 1e-3
    x, y, *_ = solved.sol(np.linspace(0.0, until, 400))
    rolling = np.hypot(x, y - length_m) > 0.01
    assert rolling.sum() > 350
    assert line.nearest(x[rolling], y[rolling]).distance_m.max() < 1e-6


def test_its_length_is_the_sum_of_its_small_pieces() -> None:
    points = curve(12.0).points(20_000)
    pieces = sum(math.dist(one, other) for one, other in itertools.pairwise(points))
    assert pieces == pytest.approx(float(curve(12.0).length_m), abs=2e-3)
    assert float(curve(12.0).length_m) == pytest.approx(27.0 / math.cos(math.radians(12.0)))


@given(angle_deg=ANGLES, length_m=LENGTHS, right=st.booleans(), x_m=st.floats(-2.0, 2.0))
@settings(deadline=None, max_examples=50)
def test_it_keeps_its_angle_to_the_place_of_rest_all_the_way(
    angle_deg: float, length_m: float, right: bool, x_m: float
) -> None:
    points = np.array([complex(*place) for place in curve(angle_deg, right, x_m, length_m).points(4_000)])
    way, middle = np.diff(points), (points[1:] + points[:-1]) / 2
    angles = np.degrees(np.angle(way / (complex(x_m, length_m) - middle)))
    wanted = -angle_deg if right else angle_deg
    assert np.abs(angles - wanted).max() < 0.01


def test_ten_degrees_at_27_m_is_widest_1_74_m_out_63_per_cent_of_the_way_up() -> None:
    # Derived: D exp(-A cot A) from the place of rest, in a direction turned by A.
    shoulder = curve().shoulder
    assert shoulder.aside_m == pytest.approx(1.742, abs=1e-3)
    assert shoulder.up_m / 27.0 == pytest.approx(0.634, abs=1e-3)
    assert max(x for x, _ in curve().points(2_000)) == pytest.approx(shoulder.aside_m, abs=1e-5)
    # Common practice, no source: the shoulder lies about three fifths of the way.
    assert all(0.55 < curve(deg).shoulder.up_m / 27.0 < 0.65 for deg in range(2, 16))


def test_the_aim_at_a_mark_follows_the_first_direction() -> None:
    assert curve().aside_m(5.0) == pytest.approx(5.0 * math.tan(math.radians(10.0)))
    (x0, y0), (x1, y1), *_ = curve().points(5_000)
    assert math.degrees(math.atan2(x1 - x0, y1 - y0)) == pytest.approx(10.0, abs=0.05)


@given(
    angle_deg=ANGLES,
    length_m=LENGTHS,
    right=st.booleans(),
    share=st.floats(0.02, 0.98),
    off=st.tuples(st.floats(-1.5, 1.5), st.floats(-1.5, 1.5)),
)
@settings(deadline=None, max_examples=40)
def test_the_nearest_approach_is_that_of_a_bowl_rolled_in_small_steps(
    angle_deg: float, length_m: float, right: bool, share: float, off: tuple[float, float]
) -> None:
    track = rolled(complex(0.4, length_m), angle_deg, right, 0.0925)
    body = track[int(share * (len(track) - 1))] + complex(*off)
    line = Curve(0.4, length_m, math.radians(angle_deg), right, 0.0925)
    found = line.nearest(np.array([body.real]), np.array([body.imag]))
    assert found.distance_m[0] == pytest.approx(nearest(track, body), abs=0.004)


def test_a_rolled_bowl_ends_on_its_target_and_goes_out_to_its_side() -> None:
    out_right, out_left = rolled(27j, 10.0, True, 0.01), rolled(27j, 10.0, False, 0.01)
    assert abs(out_right[-1] - 27j) < 0.02
    assert out_right.real.max() == pytest.approx(1.742, abs=2e-3)
    assert out_left.real.min() == pytest.approx(-1.742, abs=2e-3)


def test_left_and_right_of_the_line_are_as_the_bowl_runs() -> None:
    for right in (True, False):
        x, y = np.array([-3.0, 3.0]), np.array([15.0, 15.0])
        assert list(curve(right=right).nearest(x, y).left) == [True, False]
        inside = curve(right=right).nearest(np.array([0.0]), np.array([17.0]))
        assert bool(inside.left[0]) is right, "the straight line lies inside the curve"


def test_what_lies_beyond_the_end_is_known_to_lie_beyond() -> None:
    line = Curve(0.0, 27.0, math.radians(10.0), True, 0.0925)
    found = line.nearest(np.array([0.0, 0.0, 0.9]), np.array([27.2, 30.0, 25.0]))
    assert list(found.ends) == [True, True, False]
