"""Both lines to the jack on the coach's page: as wide as a bowl, to scale, with what blocks."""

import itertools
import math
import re
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.head.acts import bowl, played
from voicecoach.coach.lines_drawing import LinesDrawn, lines_drawn, outline
from voicecoach.coach.measure import Measure
from voicecoach.coach.wording import Words
from voicecoach.describe import Preferences
from voicecoach.head import picture
from voicecoach.head.curve import Curve
from voicecoach.understand.values import JackMoved, Note

RADIUS_M = 0.0605


def drawn_for(*notes: Note) -> LinesDrawn | None:
    return lines_drawn(picture(played(notes).head), "End one", Words(Preferences(), Measure()))


def svg_of(*notes: Note) -> ElementTree.Element:
    found = drawn_for(*notes)
    assert found is not None
    return ElementTree.fromstring(str(found.svg))


def corners(polygon: ElementTree.Element) -> list[tuple[float, float]]:
    """The corners of a strip, metres in the end's frame."""
    pairs = (corner.split(",") for corner in polygon.attrib["points"].split())
    return [(int(x) / 1000, -int(y) / 1000) for x, y in pairs]


@given(angle_deg=st.floats(3, 18), right=st.booleans(), x_m=st.floats(-2, 2), y_m=st.floats(21, 37))
@settings(deadline=None, max_examples=30)
def test_the_strip_is_as_wide_as_a_bowl_all_along_the_line(
    angle_deg: float, right: bool, x_m: float, y_m: float
) -> None:
    curve = Curve(x_m, y_m, math.radians(angle_deg), right, 0.0925)
    edge, middle = outline(curve, RADIUS_M), curve.points(45)
    assert len(edge) == 2 * len(middle)
    for at, place in enumerate(middle):
        one, other = edge[at], edge[-1 - at]
        assert math.dist(one, other) == pytest.approx(2 * RADIUS_M)
        assert math.dist(one, place) == pytest.approx(RADIUS_M)


def test_both_strips_end_at_the_jack_and_say_what_they_are() -> None:
    svg = svg_of(bowl(1.5, 5, "their 1"))
    strips = list(svg.iter("polygon"))
    assert [each.attrib["class"] for each in strips] == ["way clear", "way blocked"]
    for strip in strips:
        ends = [math.dist(corner, (0.0, 27.0)) for corner in corners(strip)]
        # Derived: the middle stops two radii from the jack's, its course ten degrees off the way to the jack.
        nearer = 0.0925**2 + RADIUS_M**2 - 2 * 0.0925 * RADIUS_M * math.sin(math.radians(10))
        assert min(ends) == pytest.approx(math.sqrt(nearer), abs=0.003)
        assert min(y for _, y in corners(strip)) < 0.1
    outs = [max((x for x, _ in corners(strip)), key=abs) for strip in strips]
    assert outs[0] < -1.7, "the backhand goes out to the left"
    assert outs[1] > 1.7, "the forehand goes out to the right"


def test_what_blocks_is_ringed_and_named_and_nothing_else_is() -> None:
    svg = svg_of(bowl(1.5, 5, "their 1"), bowl(1.0, 12, "our 1"))
    ringed = [path for path in svg.iter("path") if path.get("class") == "named"]
    assert [path.attrib["d"].count("M") for path in ringed] == [1]
    start = re.match(r"M(-?\d+) -?\d+a(\d+)", ringed[0].attrib["d"])
    assert start is not None
    assert int(start[1]) + int(start[2]) == pytest.approx(1592.5 / 2, abs=1)
    assert {path.get("class") for path in svg.iter("path")} == {"named", "side ours", "side theirs"}
    assert [each.text for each in svg.iter("text")] == ["T1"]
    assert svg.attrib["aria-label"].startswith("End one: the lines to the jack")
    assert "their first" in svg.attrib["aria-label"]


def test_the_words_beside_it_are_those_of_the_answer() -> None:
    found = drawn_for(bowl(1.5, 5, "their 1"))
    assert found is not None
    assert found.sentences[0] == "For a right hander, roughly: backhand clear."
    assert len(found.sentences) == 2


def test_nothing_is_drawn_without_bowls_or_without_a_jack() -> None:
    assert drawn_for() is None
    assert drawn_for(bowl(1.5, 5, "their 1"), JackMoved(remarks=("dead",))) is None


def test_the_corners_follow_each_other_round_the_strip() -> None:
    strip = next(iter(svg_of(bowl(1.5, 5, "their 1")).iter("polygon")))
    around = corners(strip)
    assert max(math.dist(one, other) for one, other in itertools.pairwise([*around, around[0]])) < 4.0
