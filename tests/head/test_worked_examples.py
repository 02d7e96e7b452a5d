"""Worked examples with published or derived figures, each marked with where it comes from."""

import math

import pytest

from tests.head.acts import bowl, decided, jack, lie, place, played
from voicecoach.head import begin, evolve
from voicecoach.head.aim import across_at
from voicecoach.head.values import Game
from voicecoach.understand.notes.settings import Stands
from voicecoach.understand.values import JackSet

POINTS = Game(bowl_mm=1e-6, jack_mm=1e-6)
"""Bodies so small that gaps are distances between centres."""


def test_jack_high_compares_nearest_parts() -> None:
    # Laws of the Sport of Bowls, CM3, definition C.26 (quoted): nearest parts equally far from the mat
    # line. A 121 mm bowl beside a 64 mm jack has its centre 28.5 mm past the jack's (derived).
    head = played([bowl(0.3, remarks=("jack high", "left"))]).head
    found = lie(head, "our 1")
    assert found.along_m == pytest.approx(0.0605 - 0.032, abs=1e-12)
    assert found.along_m == pytest.approx(0.0285, abs=1e-12)
    assert found.gap_m == pytest.approx(0.3)
    assert found.across_m is not None
    assert found.across_m < 0
    assert found.depth == "jack high"


def test_equal_centres_leave_the_larger_bowl_nearer() -> None:
    # CM1 40.4 (read): measured between the nearest points. With equal centres a 128.5 mm bowl is
    # 6.25 mm nearer than a 116 mm one (quoted, checked): (128.5 - 116) / 2.
    gaps = []
    for size_mm in (128.5, 116.0):
        centre = 1.0 - (size_mm + 64) / 2000
        head = played([bowl(centre, 3)], Game(bowl_mm=size_mm)).head
        assert math.dist(place(head, "our 1"), (0.0, 27.0)) == pytest.approx(1.0)
        gap = lie(head, "our 1").gap_m
        assert gap is not None
        gaps.append(gap)
    assert gaps[1] - gaps[0] == pytest.approx(0.00625)


@pytest.mark.parametrize(
    ("gap_m", "hour", "after_m", "after_hour"),
    [
        (1.0, 2, 0.8660, 3.0),
        (1.0, 10, 0.8660, 9.0),
        (1.0, 3, 1.1180, 3.886),
        (1.0, 5, 1.4547, 5.330),
        (1.0, 6, 1.5, 6.0),
        (1.0, 12, 0.5, 12.0),
        (1.0, 1, 0.6197, 1.793),
        (1.5, 8, 1.8028, 7.537),
    ],
)
def test_a_jack_trailed_half_a_metre_recomputes_every_bowl(
    gap_m: float, hour: float, after_m: float, after_hour: float
) -> None:
    # Plane trigonometry, points only (derived).
    found = lie(played([bowl(gap_m, hour), jack(0.5, 12)], POINTS).head, "our 1")
    assert found.gap_m == pytest.approx(after_m, abs=5e-5)
    assert found.hour_exact == pytest.approx(after_hour, abs=5e-4)


def test_a_jack_trailed_half_a_metre_recomputes_gaps_between_nearest_points() -> None:
    # The same with a bowl of 60.5 mm and a jack of 32 mm radius (derived): 0.8 m at 2 becomes 0.6823 m
    # at 3.133.
    found = lie(played([bowl(0.8, 2), jack(0.5, 12)]).head, "our 1")
    assert found.gap_m == pytest.approx(0.6823, abs=5e-5)
    assert found.hour_exact == pytest.approx(3.133, abs=5e-4)
    assert found.hour == 3
    assert found.said is not None
    assert (found.said.gap_m, found.said.hour) == (0.8, 2)


@pytest.mark.parametrize("hour", range(1, 13))
def test_a_caller_who_faces_the_mat_has_every_hour_turned_by_six(hour: int) -> None:
    # Someone facing the mat from behind the head reads every hour plus six (derived).
    facing = evolve(begin(), decided(begin(), Stands(value="head")))
    from_the_head = played([bowl(1.0, hour)], play=facing)
    from_the_mat = played([bowl(1.0, (hour + 6) % 12 or 12)])
    assert place(from_the_head.head, "our 1") == pytest.approx(place(from_the_mat.head, "our 1"))
    assert lie(from_the_head.head, "our 1").hour == ((hour + 6) % 12 or 12)


@pytest.mark.parametrize(("at_m", "shift_m"), [(3, 0.111), (5, 0.185), (31, 1.148)])
def test_a_metre_wide_at_twenty_seven_is_so_much_at_the_mark(at_m: float, shift_m: float) -> None:
    # Similar triangles (derived): 1 m at 27 m is 2.121 degrees.
    assert across_at(1.0, 27.0, at_m) == pytest.approx(shift_m, abs=5e-4)
    assert math.degrees(math.atan2(1.0, 27.0)) == pytest.approx(2.121, abs=5e-4)


@pytest.mark.parametrize(("up_m", "mark_m"), [(2, 2.3485), (4, 2.1970), (8, 1.8939), (10, 1.7424)])
def test_a_mat_moved_up_brings_the_mark_on_the_bank_in(up_m: float, mark_m: float) -> None:
    # An aim point 2.5 m off the centre line at 33 m (derived).
    assert across_at(2.5, 33.0, 33.0 - up_m) == pytest.approx(mark_m, abs=5e-5)


def test_the_jack_lies_where_it_is_called_to_the_figure() -> None:
    head = played([JackSet(length_m=26.0), bowl(0.8, 12)]).head
    assert (head.jack.x_m, head.jack.y_m) == (0.0, 26.0)
    assert place(head, "our 1") == pytest.approx((0.0, 26.0 + 0.8 + 0.0925))
