"""Drawings: the positions are read back out of the SVG, and nothing hides anything."""

import math
import re
from itertools import combinations
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some

from tests.coach.games import called, two_ends
from voicecoach.coach.box import FACE_M, MARGIN_M, box
from voicecoach.coach.drawing import INSIDE, drawing
from voicecoach.coach.labels import Sizes, place
from voicecoach.coach.moments import Moment, moments
from voicecoach.coach.svg import tag, text
from voicecoach.head import picture
from voicecoach.head.bodies import seen
from voicecoach.head.sample import path_of, sampled
from voicecoach.head.values import Game, Head, Jack
from voicecoach.understand.values import BowlName

MOMENTS = moments(two_ends().entries)
LAST_OF_FIRST_END = [moment for moment in MOMENTS if moment.end == 1][-1]


def _drawn(moment: Moment) -> ElementTree.Element:
    heads = [each.head for each in MOMENTS if each.end == moment.end]
    frame = box(heads)
    assert frame
    return ElementTree.fromstring(str(drawing(picture(moment.head), frame, moment.event.bowl)))


def _bodies(svg: ElementTree.Element) -> dict[str, tuple[float, float]]:
    """Where each bowl lies, metres in the end's frame, as the drawing has it."""
    found = {}
    for group in svg.iter("g"):
        match = re.fullmatch(r"translate\((-?\d+) (-?\d+)\)", group.attrib["transform"])
        assert match
        found[group.attrib["data-body"]] = (int(match[1]) / 1000, -int(match[2]) / 1000)
    return found


def test_every_bowl_with_a_place_is_drawn_where_it_lies_at_every_moment() -> None:
    for moment in MOMENTS:
        if not moment.head.bowls:
            continue
        placed = {
            f"{bowl.side} {bowl.number}": (bowl.x_m, bowl.y_m)
            for bowl in moment.head.bowls
            if bowl.x_m is not None
        }
        drawn = _bodies(_drawn(moment))
        assert set(drawn) == set(placed)
        for body, (x_m, y_m) in placed.items():
            assert drawn[body] == pytest.approx((x_m, y_m), abs=0.000501)


def test_the_jack_bowls_and_ring_have_their_true_size() -> None:
    svg = _drawn(LAST_OF_FIRST_END)
    jack = next(part for part in svg.iter("circle") if part.get("data-body") == "jack")
    assert (int(jack.attrib["cx"]), int(jack.attrib["cy"])) == (200, -29000)
    assert float(jack.attrib["r"]) == 32.0
    ring = next(part for part in svg.iter("circle") if part.get("class") == "face")
    assert float(ring.attrib["r"]) == 1000 * FACE_M + 32
    edges = [float(part.attrib["r"]) for part in svg.iter("circle") if part.get("class") == "edge"]
    assert set(edges) == {60.5}


def test_a_bowl_called_a_metre_away_touches_the_ring() -> None:
    svg = _drawn(MOMENTS[-1])
    x_m, y_m = _bodies(svg)["ours 1"]
    ring = next(part for part in svg.iter("circle") if part.get("class") == "face")
    to_centre = math.hypot(x_m - int(ring.attrib["cx"]) / 1000, y_m + int(ring.attrib["cy"]) / 1000)
    assert to_centre - 0.0605 == pytest.approx(float(ring.attrib["r"]) / 1000, abs=0.001)


def test_rink_lines_and_ditch_are_drawn_where_they_are() -> None:
    # A rink 5 m wide; a green of 34.8 m, the mat line 4 m up: the ditch's edge is 30.8 m from it.
    svg = _drawn(LAST_OF_FIRST_END)
    lines = [part for part in svg.iter("line") if part.get("class") == "rink"]
    assert [(part.attrib["x1"], part.attrib["x2"]) for part in lines] == [
        ("-2500", "-2500"),
        ("2500", "2500"),
    ]
    ditch = next(part for part in svg.iter("rect") if part.get("class") == "ditch")
    assert int(ditch.attrib["y"]) + int(ditch.attrib["height"]) == -30800


def test_sides_are_told_by_shape_and_letter() -> None:
    svg = _drawn(LAST_OF_FIRST_END)
    for group in svg.iter("g"):
        diamonds = [part for part in group if part.get("class") == "mark"]
        assert len(diamonds) == (1 if group.attrib["data-body"].startswith("theirs") else 0)
    names = {part.text for part in svg.iter("text") if part.get("class") == "name"}
    assert names == {"O1", "O2", "O3", "O4", "O5\N{MULTIPLICATION SIGN}", "T1", "T2", "T3", "T4"}


def test_the_bowl_of_the_note_is_ringed_and_no_other() -> None:
    for moment in MOMENTS:
        if not moment.head.bowls:
            continue
        ringed = [
            group.attrib["data-body"]
            for group in _drawn(moment).iter("g")
            if any(part.get("class") == "named" for part in group)
        ]
        name = moment.event.bowl
        lies = name and any(
            (bowl.side, bowl.number) == (name.side, name.number) and bowl.x_m is not None
            for bowl in moment.head.bowls
        )
        assert ringed == ([f"{name.side} {name.number}"] if name and lies else [])


def test_the_outline_of_doubt_holds_the_stated_share_of_the_sampled_places() -> None:
    head = LAST_OF_FIRST_END.head
    svg = _drawn(LAST_OF_FIRST_END)
    outlines = list(svg.iter("ellipse"))
    drawn = seen(head)
    assert len(outlines) == len(drawn) == 9
    for bowl, outline in zip(drawn, outlines, strict=True):
        turn = math.radians(-float(re.search(r"rotate\((.*?)\)", outline.attrib["transform"])[1]))  # type: ignore[index]
        right, past = sampled(head, bowl, path_of(head))
        right, past = right - right.mean(), past - past.mean()
        long = (right * math.cos(turn) + past * math.sin(turn)) / (int(outline.attrib["rx"]) / 1000)
        across = (past * math.cos(turn) - right * math.sin(turn)) / (int(outline.attrib["ry"]) / 1000)
        # The spread is even in the hour, so the share is only near that of a spread normal both ways.
        assert float(np.mean(long**2 + across**2 <= 1)) == pytest.approx(INSIDE, abs=0.12)


def test_a_drawing_stays_the_same_size_through_an_end_and_shows_every_body_whole() -> None:
    for end in (1, 2):
        heads = [moment.head for moment in MOMENTS if moment.end == end]
        frame = box(heads)
        assert frame
        left, top, width, height = frame
        for head in heads:
            for bowl in head.bowls:
                if bowl.x_m is not None and bowl.y_m is not None:
                    inner = 1000 * (MARGIN_M - 0.1)
                    assert left + inner <= 1000 * bowl.x_m <= left + width - inner
                    assert top + inner <= -1000 * bowl.y_m <= top + height - inner


def test_an_end_without_a_bowl_has_nothing_to_draw() -> None:
    assert box([Head()]) is None
    assert box([Head(jack=Jack(x_m=None, y_m=None, state="dead"))]) is None


def test_a_dead_jack_leaves_the_bowls_drawn() -> None:
    head = Head(
        jack=Jack(x_m=None, y_m=None, state="dead"), bowls=(called("ours", 1, 1.0, 3.0),), game=Game()
    )
    frame = box([head])
    assert frame
    svg = ElementTree.fromstring(str(drawing(picture(head), frame, BowlName(side="ours", number=1))))
    assert set(_bodies(svg)) == {"ours 1"}
    assert all(part.get("data-body") != "jack" for part in svg.iter("circle"))


@given(some.lists(some.tuples(some.floats(-2500, 2500), some.floats(-2500, 2500)), min_size=1, max_size=6))
def test_no_name_covers_another_or_a_bowl_while_there_is_room(points: list[tuple[float, float]]) -> None:
    sizes = Sizes(radius=60, width=220, height=140)
    middles = place(points, sizes)
    assert len(middles) == len(points)
    for (x, y), (other_x, other_y) in combinations(middles, 2):
        assert abs(x - other_x) >= sizes.width - 1e-6 or abs(y - other_y) >= sizes.height - 1e-6
    for x, y in middles:
        for bowl_x, bowl_y in points:
            apart_x, apart_y = abs(x - bowl_x), abs(y - bowl_y)
            assert apart_x >= 60 + 110 - 1e-6 or apart_y >= 60 + 70 - 1e-6


def test_words_and_attributes_in_a_drawing_are_escaped() -> None:
    words = "<script>&\"'"
    assert ElementTree.fromstring(str(text(words, 0, 0, 1))).text == words
    assert ElementTree.fromstring(str(tag("g", data_body=words))).attrib["data-body"] == words
