"""A head to scale: jack, clock face, bowls and their doubt, ditch and rink lines, seen from the mat.

One drawing shows a whole play of an end: it is set as the end was left, and carries what each moment before
it changes, so that a script can step through in place. A name keeps its side of its bowl as long as it can.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from markupsafe import Markup

from voicecoach.coach import shapes
from voicecoach.coach.box import Box, box
from voicecoach.coach.deliveries import Name
from voicecoach.coach.drawn import Drawn, Manner, Spot, State
from voicecoach.coach.labels import Point, Sizes, Taken, beside, covered
from voicecoach.coach.measure import Measure
from voicecoach.coach.svg import mm, picture, tag, text
from voicecoach.head.bounds import ditch_edge_m
from voicecoach.head.clock import HOURS, offset
from voicecoach.head.values import Game, Head, Lie, Picture
from voicecoach.understand.values import BowlName, Side

INSIDE = 2 / 3
"""How often the middle of a bowl is inside its outline of doubt."""
_SPREADS = math.sqrt(-2 * math.log(1 - INSIDE))
"""Standard deviations at which a two-way normal spread holds that share."""
FAR_MM = 100_000
"""Lines and the ditch run on so far beyond the drawing, which may be set wider than it is."""
_SIZE, _NARROW = 0.034, 1.3
"""Height of the words, as a share of the drawing's width; how much larger they are on a narrow screen."""
_NEAR = 2.2
"""A name within so many times its height of a bowl's edge is that bowl's without a line to it."""


@dataclass
class _Drawing:
    """One drawing while it is being made."""

    frame: Box
    measure: Measure
    letters: Mapping[Side, str]
    game: Game
    offsets: dict[Name, tuple[Point, str]] = field(default_factory=dict)
    """Where each name stands beside its bowl, and the name."""

    @property
    def size(self) -> float:
        """Height of the words."""
        return _SIZE * max(self.frame[2], 0.8 * self.frame[3])

    @property
    def ring(self) -> float:
        """Radius of the clock face."""
        return mm(self.measure.ring_m) + self.game.jack_mm / 2

    def sizes(self, label: str) -> Sizes:
        """Room for a bowl's name, and for the bowl with the ring round it."""
        high = _NARROW * self.size
        return Sizes(self.game.bowl_mm / 2 + shapes.RING_MM + 20, 0.68 * high * len(label), high)


def drawn(
    pictures: Sequence[Picture], shown: int, manner: Manner, named: BowlName | None = None
) -> Drawn | None:
    """The moments of one play, set as at one of them, the bowl `named` ringed; None for an empty drawing."""
    reach = {at: [_reach(lie) for lie in seen.lies] for at, seen in enumerate(pictures)}
    frame = box(pictures, manner.measure.ring_m, reach)
    if frame is None:
        return None
    making = _Drawing(frame, manner.measure, manner.letters, pictures[-1].head.game)
    hours = _hours(making, pictures)
    states = tuple(_state(making, seen, hours) for seen in pictures)
    names = tuple(dict.fromkeys(name for state in states for name in state.spots))
    parts = [
        *_green(making),
        _clock(making, states[shown], hours),
        *_bodies(making, names, states[shown], named),
    ]
    return Drawn(picture(parts, frame, manner.said, "head", round(making.size)), names, states)


def _reach(lie: Lie) -> tuple[float, float]:
    across, along, _ = lie.doubt or (0.0, 0.0, 0.0)
    return _SPREADS * math.sqrt(across), _SPREADS * math.sqrt(along)


def _green(making: _Drawing) -> Iterator[Markup]:
    left, top, width, height = making.frame
    size, game, far = making.size, making.game, FAR_MM
    yield tag("line", x1=0, x2=0, y1=top - far, y2=top + height + far, class_="centre")
    if game.rink_m is not None:
        for x in (-mm(game.rink_m / 2), mm(game.rink_m / 2)):
            yield tag("line", x1=x, x2=x, y1=top - far, y2=top + height + far, class_="rink")
    edge = ditch_edge_m(game)
    if edge is not None and -mm(edge) > top:
        yield tag("rect", x=left - far, y=-mm(edge) - far, width=width + 2 * far, height=far, class_="ditch")
        yield text("ditch", left + 1.8 * size, -mm(edge) - 0.8 * size, size, class_="note")
    bottom = top + height
    bar = mm(making.measure.ring_m)
    yield tag("path", d=f"M{round(left + size)} {round(bottom - 1.9 * size)}h{bar}", class_="scale")
    yield text(making.measure.ring, left + size + bar / 2, bottom - 0.9 * size, size, class_="note")
    right = left + width
    yield text(
        "mat this way \N{DOWNWARDS ARROW}", right - 5.5 * size, bottom - 0.9 * size, size, class_="note"
    )


def _hours(making: _Drawing, pictures: Sequence[Picture]) -> dict[int, Point]:
    """Where the figures of the clock face stand, from the jack: where no bowl of the end hides them."""
    size, ring = making.size, making.ring
    bodies = [
        (1000 * lie.across_m, -1000 * lie.along_m)
        for seen in pictures
        for lie in seen.lies
        if lie.across_m is not None and lie.along_m is not None
    ]
    sizes = Sizes(making.game.bowl_mm / 2 + 15, 1.2 * size, 1.1 * size)
    found: dict[int, Point] = {}
    for hour in (12, 3, 6, 9):
        places = [
            (right + aside * past, -past + aside * right)
            for out, aside in ((0.8, 0), (-0.9, 0), (0.8, 0.16), (0.8, -0.16), (1.9, 0), (-0.9, 0.2))
            for right, past in (offset(float(hour), ring + out * size),)
        ]
        found[hour] = min(places, key=lambda at: covered(at, sizes, Taken(bodies, ())))
    return found


def _clock(making: _Drawing, state: State, hours: dict[int, Point]) -> Markup:
    """The face and the jack round the origin, moved to where the jack lies."""
    ring, parts = making.ring, []
    parts.append(tag("circle", r=round(ring), class_="face"))
    ticks = (offset(float(hour), ring) for hour in range(1, HOURS + 1) if hour % 3)
    lines = "".join(
        f"M{round(0.96 * right)} {round(-0.96 * past)}L{round(1.04 * right)} {round(-1.04 * past)}"
        for right, past in ticks
    )
    parts.append(tag("path", d=lines, class_="face"))
    parts += [text(str(hour), x, y, making.size, class_="hour") for hour, (x, y) in hours.items()]
    parts.append(tag("circle", r=making.game.jack_mm / 2, class_="jack", data_body="jack"))
    x, y = state.jack or (0, 0)
    class_ = "clock" if state.jack else "clock gone"
    return tag("g", parts, class_=class_, transform=f"translate({x} {y})")


def _state(making: _Drawing, seen: Picture, hours: dict[int, Point]) -> State:
    lies = {(lie.side, lie.number): (lie, _at(lie.place)) for lie in seen.lies if lie.place is not None}
    jack = _jack(seen.head)
    bodies = [at for _, at in lies.values()] + ([jack] if jack else [])
    written = [((jack[0] + x, jack[1] + y), 1.2 * making.size) for x, y in hours.values()] if jack else []
    names: list[tuple[Point, float]] = [*written, *_notes(making)]
    spots: dict[Name, Spot] = {}
    for name, (lie, (x, y)) in lies.items():
        label = f"{making.letters[lie.side]}{lie.number}" + ("\N{MULTIPLICATION SIGN}" if lie.toucher else "")
        middle = _beside(making, name, (x, y), label, Taken(bodies, names, _lines(making, jack)))
        names.append((middle, making.sizes(label).width))
        long, short, turn = _outline(lie)
        spots[name] = Spot(x, y, long, short, turn, round(middle[0]), round(middle[1]), label)
    return State(spots, jack)


def _notes(making: _Drawing) -> list[tuple[Point, float]]:
    """The words at the foot of the drawing."""
    left, top, width, height = making.frame
    size = making.size
    bar = mm(making.measure.ring_m)
    foot = top + height - 1.2 * size
    return [((left + size + bar / 2, foot), bar + size), ((left + width - 5.5 * size, foot), 10 * size)]


def _beside(making: _Drawing, name: Name, at: tuple[int, int], label: str, taken: Taken) -> Point:
    """Where the name stands: where it stood before, if nothing has come there."""
    x, y = at
    sizes = making.sizes(label)
    kept, was = making.offsets.get(name, ((0.0, 0.0), ""))
    middle = (x + kept[0], y + kept[1])
    if was != label or covered(middle, sizes, taken):
        middle = beside((x, y), sizes, taken)
        making.offsets[name] = ((middle[0] - x, middle[1] - y), label)
    return middle


@dataclass(frozen=True)
class _Lines:
    """What strikes through words: the centre line, the lines of the rink, and the ring of the face."""

    uprights: tuple[float, ...]
    jack: tuple[int, int] | None
    ring: float

    def __call__(self, at: Point, sizes: Sizes, /) -> bool:
        """True where one of them goes through a name there."""
        half_x, half_y = sizes.width / 2, sizes.height / 2
        if any(abs(at[0] - x) < half_x for x in self.uprights):
            return True
        if self.jack is None:
            return False
        x, y = abs(at[0] - self.jack[0]), abs(at[1] - self.jack[1])
        near = math.hypot(max(0.0, x - half_x), max(0.0, y - half_y))
        return near < self.ring < math.hypot(x + half_x, y + half_y)


def _lines(making: _Drawing, jack: tuple[int, int] | None) -> _Lines:
    rink = making.game.rink_m
    edges = () if rink is None else (-mm(rink / 2), mm(rink / 2))
    return _Lines((0.0, *edges), jack, making.ring)


def _bodies(making: _Drawing, names: Sequence[Name], last: State, named: BowlName | None) -> Iterator[Markup]:
    """Doubts below, then the names, the bowls on top: no name cuts a bowl or the ring round one."""
    radius = making.game.bowl_mm / 2
    none = Spot(0, 0, 0, 0, 0.0, 0, 0, "")
    spots = [(name, last.spots.get(name, none)) for name in names]
    yield tag("g", [_doubt(name, spot) for name, spot in spots], class_="doubts")
    yield tag("path", d=_leaders(making, [spot for _, spot in spots]), class_="leaders")
    yield tag("g", [_label(making, spot) for _, spot in spots], class_="names")
    bowls = []
    for (side, number), spot in spots:
        parts = list(shapes.bowl(side, radius))
        if named is not None and (named.side, named.number) == (side, number) and spot.label:
            parts.append(shapes.ring(radius))
        bowls.append(
            tag(
                "g",
                parts,
                class_=f"bowl {side}" if spot.label else f"bowl {side} gone",
                transform=f"translate({spot.x} {spot.y})",
                data_body=f"{side} {number}",
            )
        )
    yield tag("g", bowls, class_="bowls")


def _leaders(making: _Drawing, spots: Sequence[Spot]) -> str:
    """A line from each bowl to its name, where the name had to stand far from it."""
    near = making.game.bowl_mm / 2 + _NEAR * making.size
    lines = [
        f"M{spot.x} {spot.y}L{spot.label_x} {spot.label_y}"
        for spot in spots
        if spot.label and math.hypot(spot.label_x - spot.x, spot.label_y - spot.y) > near
    ]
    return "".join(lines) or "M0 0"


def _doubt(name: Name, spot: Spot) -> Markup:
    return tag(
        "ellipse",
        rx=spot.long,
        ry=spot.short,
        transform=f"translate({spot.x} {spot.y}) rotate({spot.turn})",
        class_=f"doubt {name[0]}" if spot.long else f"doubt {name[0]} gone",
    )


def _label(making: _Drawing, spot: Spot) -> Markup:
    return text(
        spot.label, spot.label_x, spot.label_y, making.size, class_="name" if spot.label else "name gone"
    )


def _outline(lie: Lie) -> tuple[int, int, float]:
    """The half axes of the spread, the longer one first, and its turn down the page, degrees."""
    across, along, both = lie.doubt or (0.0, 0.0, 0.0)
    middle, half = (across + along) / 2, math.hypot((across - along) / 2, both)
    turn = math.degrees(math.atan2(2 * both, across - along)) / 2
    long, short = math.sqrt(middle + half), math.sqrt(max(0.0, middle - half))
    return mm(_SPREADS * long), mm(_SPREADS * short), round(-turn, 1)


def _jack(head: Head) -> tuple[int, int] | None:
    return None if head.jack.place is None else _at(head.jack.place)


def _at(place: tuple[float, float]) -> tuple[int, int]:
    """On the drawing, millimetres, the mat at its foot."""
    return mm(place[0]), -mm(place[1])
