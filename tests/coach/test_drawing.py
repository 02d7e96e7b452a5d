"""Drawings: the positions are read back out of the SVG, and nothing hides anything."""

import math
import re
from collections.abc import Sequence
from itertools import combinations, pairwise, permutations
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some

from tests.coach.games import called, two_ends
from voicecoach.coach.box import FACE_M
from voicecoach.coach.drawing import INSIDE, drawn
from voicecoach.coach.drawn import Manner
from voicecoach.coach.labels import Sizes, place
from voicecoach.coach.measure import Measure
from voicecoach.coach.moments import Moment, moments
from voicecoach.coach.svg import tag, text
from voicecoach.head import picture
from voicecoach.head.bodies import seen
from voicecoach.head.sample import path_of, sampled
from voicecoach.head.values import Game, Head, Jack, Picture
from voicecoach.understand.values import BowlName

MOMENTS = moments(two_ends().entries)
LAST_OF_FIRST_END = [moment for moment in MOMENTS if moment.end == 1][-1]
MANNER = Manner(Measure(), {"ours": "O", "theirs": "T"}, "The head.")


def _whole(end: int) -> Sequence[Picture]:
    return [picture(moment.head) for moment in MOMENTS if moment.end == end]


def _drawn(moment: Moment) -> ElementTree.Element:
    """The whole end, set as at this moment."""
    end = [each for each in MOMENTS if each.end == moment.end]
    scene = drawn(_whole(moment.end), end.index(moment), MANNER, moment.event.bowl)
    assert scene
    return ElementTree.fromstring(str(scene.svg))


def _seen(svg: ElementTree.Element, tag: str, class_: str) -> list[ElementTree.Element]:
    """The parts of this class that are shown."""
    return [
        part
        for part in svg.iter(tag)
        if class_ in (found := part.get("class", "").split()) and "gone" not in found
    ]


def _bodies(svg: ElementTree.Element) -> dict[str, tuple[float, float]]:
    """Where each bowl lies, metres in the end's frame, as the drawing has it."""
    found = {}
    for group in _seen(svg, "g", "bowl"):
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
    (clock,) = _seen(svg, "g", "clock")
    assert clock.attrib["transform"] == "translate(200 -29000)"
    jack = next(part for part in clock if part.get("data-body") == "jack")
    assert float(jack.attrib["r"]) == 32.0
    ring = next(part for part in svg.iter("circle") if part.get("class") == "face")
    assert float(ring.attrib["r"]) == 1000 * FACE_M + 32
    edges = [float(part.attrib["r"]) for part in svg.iter("circle") if part.get("class") == "edge"]
    assert set(edges) == {60.5}


def test_a_bowl_called_a_metre_away_touches_the_ring() -> None:
    svg = _drawn(MOMENTS[-1])
    x_m, y_m = _bodies(svg)["ours 1"]
    ring = next(part for part in svg.iter("circle") if part.get("class") == "face")
    to_centre = math.hypot(x_m, y_m - 24.0)
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
    for group in _seen(svg, "g", "bowl"):
        diamonds = [part for part in group if part.get("class") == "mark"]
        assert len(diamonds) == (1 if group.attrib["data-body"].startswith("theirs") else 0)
    names = {part.text for part in _seen(svg, "text", "name")}
    assert names == {"O1", "O2", "O3", "O4", "O5\N{MULTIPLICATION SIGN}", "T1", "T2", "T3", "T4"}


def test_the_bowl_of_the_note_is_ringed_and_no_other() -> None:
    for moment in MOMENTS:
        if not moment.head.bowls:
            continue
        ringed = [
            group.attrib["data-body"]
            for group in _seen(_drawn(moment), "g", "bowl")
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
    outlines = _seen(svg, "ellipse", "doubt")
    bowls = seen(head)
    assert len(outlines) == len(bowls) == 9
    for bowl, outline in zip(bowls, outlines, strict=True):
        turn = math.radians(-float(re.search(r"rotate\((.*?)\)", outline.attrib["transform"])[1]))  # type: ignore[index]
        right, past = sampled(head, bowl, path_of(head))
        right, past = right - right.mean(), past - past.mean()
        long = (right * math.cos(turn) + past * math.sin(turn)) / (int(outline.attrib["rx"]) / 1000)
        across = (past * math.cos(turn) - right * math.sin(turn)) / (int(outline.attrib["ry"]) / 1000)
        # The spread is even in the hour, so the share is only near that of a spread normal both ways.
        assert float(np.mean(long**2 + across**2 <= 1)) == pytest.approx(INSIDE, abs=0.12)


def test_a_drawing_stays_the_same_size_through_an_end_and_shows_every_body_whole_with_its_doubt() -> None:
    for end in (1, 2):
        pictures = _whole(end)
        sizes = set()
        for at in range(len(pictures)):
            scene = drawn(pictures, at, MANNER)
            assert scene
            svg = ElementTree.fromstring(str(scene.svg))
            sizes.add(svg.attrib["viewBox"])
            left, top, width, height = map(int, svg.attrib["viewBox"].split())
            for spot in scene.states[at].spots.values():
                turn = math.radians(spot.turn)
                across = math.hypot(spot.long * math.cos(turn), spot.short * math.sin(turn)) + 4
                along = math.hypot(spot.long * math.sin(turn), spot.short * math.cos(turn)) + 4
                across, along = max(across, 350), max(along, 350)
                assert left + across <= spot.x <= left + width - across
                assert top + along <= spot.y <= top + height - along
        assert len(sizes) == 1


def test_an_end_without_a_bowl_has_nothing_to_draw() -> None:
    assert drawn([picture(Head())], 0, MANNER) is None
    assert drawn([picture(Head(jack=Jack(x_m=None, y_m=None, state="dead")))], 0, MANNER) is None


def test_a_dead_jack_leaves_the_bowls_drawn() -> None:
    head = Head(
        jack=Jack(x_m=None, y_m=None, state="dead"), bowls=(called("ours", 1, 1.0, 3.0),), game=Game()
    )
    scene = drawn([picture(head)], 0, MANNER, BowlName(side="ours", number=1))
    assert scene
    svg = ElementTree.fromstring(str(scene.svg))
    assert set(_bodies(svg)) == {"ours 1"}
    assert not _seen(svg, "g", "clock")


def test_what_the_script_is_given_leads_to_every_state_of_the_drawing() -> None:
    pictures = _whole(1)
    scene = drawn(pictures, 0, MANNER)
    assert scene
    spots: dict[int, tuple[object, ...]] = {}
    for at, state in enumerate(scene.states):
        for number, *spot in scene.changes(at):
            spots[int(number)] = tuple(spot)
        shown = {scene.names[number]: spot for number, spot in spots.items() if spot}
        assert shown == {name: tuple(spot) for name, spot in state.spots.items()}
        lying = {(lie.side, lie.number) for lie in pictures[at].lies if lie.x_m is not None}
        assert set(shown) == lying


def test_a_name_stays_beside_its_bowl_while_the_end_goes_on() -> None:
    scene = drawn(_whole(1), 0, MANNER)
    assert scene
    jumps = steps = 0
    for was, now in pairwise(scene.states):
        for name in was.spots.keys() & now.spots.keys():
            before, after = was.spots[name], now.spots[name]
            steps += 1
            jumps += (before.label_x - before.x, before.label_y - before.y) != (
                after.label_x - after.x,
                after.label_y - after.y,
            )
    assert jumps <= 0.1 * steps


def test_no_name_covers_a_bowl_a_ring_or_another_name_a_touchers_among_them() -> None:
    scene = drawn(_whole(1), 0, MANNER)
    assert scene
    svg = ElementTree.fromstring(str(scene.svg))
    high = float(svg.attrib["font-size"])
    for state in scene.states:
        for (name, spot), (other, beside) in permutations(state.spots.items(), 2):
            wide = 0.62 * high * len(spot.label)
            if name == other:
                continue
            assert (
                abs(spot.label_x - beside.x) >= wide / 2 + 60 or abs(spot.label_y - beside.y) >= high / 2 + 60
            ), (name, other)
        for spot in state.spots.values():
            wide = 0.62 * high * len(spot.label)
            assert (
                abs(spot.label_x - spot.x) >= wide / 2 + 105 or abs(spot.label_y - spot.y) >= high / 2 + 105
            )
        for spot, beside in combinations(state.spots.values(), 2):
            wide = 0.31 * high * (len(spot.label) + len(beside.label))
            assert (
                abs(spot.label_x - beside.label_x) >= wide or abs(spot.label_y - beside.label_y) >= 0.9 * high
            )


@pytest.mark.parametrize("hour", [12.0, 3.0, 6.0, 9.0])
def test_a_bowl_on_the_ring_hides_no_figure_of_the_clock(hour: float) -> None:
    head = Head(jack=Jack(y_m=25.0, called=True), bowls=(called("ours", 1, 1.1, hour),), game=Game())
    scene = drawn([picture(head)], 0, MANNER)
    assert scene
    svg = ElementTree.fromstring(str(scene.svg))
    high = float(svg.attrib["font-size"])
    (spot,) = scene.states[0].spots.values()
    for part in svg.iter("text"):
        if part.get("class") == "hour":
            x, y = int(part.attrib["x"]), int(part.attrib["y"]) - 0.35 * high
            apart = abs(x - spot.x), abs(y - (spot.y + 25000))
            assert apart[0] >= 60 + 0.3 * high or apart[1] >= 60 + 0.4 * high, (part.text, apart)


def test_in_a_game_called_in_feet_the_face_and_the_bar_are_three_feet() -> None:
    # 1 yd = 0.9144 m exactly (international yard and pound agreement, 1959; read).
    scene = drawn(_whole(1), 0, Manner(Measure(feet=True), MANNER.letters, "The head."))
    assert scene
    svg = ElementTree.fromstring(str(scene.svg))
    ring = next(part for part in svg.iter("circle") if part.get("class") == "face")
    assert float(ring.attrib["r"]) == round(914.4 + 32)
    bar = next(part for part in svg.iter("path") if part.get("class") == "scale")
    assert bar.attrib["d"].endswith("h914")
    assert "3\N{NO-BREAK SPACE}ft" in {part.text for part in svg.iter("text")}


def test_the_ditch_and_the_lines_run_on_beyond_the_drawing_so_that_no_frame_shows_their_end() -> None:
    svg = _drawn(LAST_OF_FIRST_END)
    left, top, width, height = map(int, svg.attrib["viewBox"].split())
    ditch = next(part for part in svg.iter("rect") if part.get("class") == "ditch")
    assert int(ditch.attrib["x"]) < left - width
    assert int(ditch.attrib["x"]) + int(ditch.attrib["width"]) > left + 2 * width
    for part in svg.iter("line"):
        assert int(part.attrib["y1"]) < top - height
        assert int(part.attrib["y2"]) > top + 2 * height


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
