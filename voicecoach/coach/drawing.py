"""A head to scale: jack, clock face, bowls and their doubt, ditch and rink lines, seen from the mat."""

import math
from collections.abc import Iterable, Iterator

from markupsafe import Markup

from voicecoach.coach.box import FACE_M, Box
from voicecoach.coach.labels import Sizes, place
from voicecoach.coach.svg import mm, picture, tag, text
from voicecoach.head.bounds import ditch_edge_m
from voicecoach.head.clock import HOURS, offset
from voicecoach.head.values import Head, Lie, Picture, Point
from voicecoach.understand.values import BowlName, Side

INSIDE = 2 / 3
"""How often the middle of a bowl is inside its outline of doubt."""
_SPREADS = math.sqrt(-2 * math.log(1 - INSIDE))
"""Standard deviations at which a two-way normal spread holds that share."""
LETTERS: dict[Side, str] = {"ours": "O", "theirs": "T"}
SAID = "The head, drawn to scale as seen from the mat. The sentences beside it say the same."


Spot = tuple[int, int]


def drawing(seen: Picture, box: Box, named: BowlName | None) -> Markup:
    """The head; `named` is the bowl that the note was about, ringed."""
    head = seen.head
    lies = [(lie, _on_paper(lie.place)) for lie in seen.lies if lie.place is not None]
    size = 0.034 * box[2]
    parts = [*_green(head, box, size), *_jack(head)]
    parts += [_doubt(lie, at) for lie, at in lies if lie.doubt]
    parts += [_bowl(lie, at, head, named) for lie, at in lies]
    parts += _names(lies, head, size)
    return picture(parts, box, SAID, "head")


def _green(head: Head, box: Box, size: float) -> Iterator[Markup]:
    left, top, width, height = box
    yield tag("line", x1=0, x2=0, y1=top, y2=top + height, class_="centre")
    if head.game.rink_m is not None:
        for x in (-mm(head.game.rink_m / 2), mm(head.game.rink_m / 2)):
            yield tag("line", x1=x, x2=x, y1=top, y2=top + height, class_="rink")
    edge = ditch_edge_m(head.game)
    if edge is not None and -mm(edge) > top:
        yield tag("rect", x=left, y=top, width=width, height=-mm(edge) - top, class_="ditch")
        yield text("ditch", left + 1.6 * size, -mm(edge) - 0.8 * size, size, class_="note")
    bottom = top + height
    yield text("mat this way \N{DOWNWARDS ARROW}", left + width / 2, bottom - 0.8 * size, size, class_="note")
    yield tag("path", d=f"M{round(left + size)} {round(bottom - 1.7 * size)}h1000", class_="scale")
    yield text("1 m", left + size + 500, bottom - 0.8 * size, size, class_="note")


def _jack(head: Head) -> Iterator[Markup]:
    if head.jack.place is None:
        return
    x, y = _on_paper(head.jack.place)
    radius = head.game.jack_mm / 2
    ring = mm(FACE_M) + radius
    yield tag("circle", cx=x, cy=y, r=round(ring), class_="face")
    for hour, (hour_x, hour_y) in _hours(head).items():
        yield text(str(hour), hour_x, hour_y, 130, class_="hour")
    for hour in range(1, HOURS + 1):
        if hour % 3:
            right, past = offset(float(hour), ring)
            yield tag(
                "line",
                x1=round(x + right * 0.96),
                y1=round(y - past * 0.96),
                x2=round(x + right * 1.04),
                y2=round(y - past * 1.04),
                class_="face",
            )
    yield tag("circle", cx=x, cy=y, r=radius, class_="jack", data_body="jack")


def _hours(head: Head) -> dict[int, tuple[float, float]]:
    """Where the figures of the clock face stand."""
    if head.jack.place is None:
        return {}
    x, y = _on_paper(head.jack.place)
    points = {hour: offset(float(hour), 1.1 * (mm(FACE_M) + head.game.jack_mm / 2)) for hour in (3, 6, 9, 12)}
    return {hour: (x + right, y - past) for hour, (right, past) in points.items()}


def _doubt(lie: Lie, at: Spot) -> Markup:
    """An ellipse: the axes of the spread, the longer one first."""
    across, along, both = lie.doubt or (0.0, 0.0, 0.0)
    middle, half = (across + along) / 2, math.hypot((across - along) / 2, both)
    turn = math.degrees(math.atan2(2 * both, across - along)) / 2
    x, y = at
    return tag(
        "ellipse",
        rx=mm(_SPREADS * math.sqrt(middle + half)),
        ry=mm(_SPREADS * math.sqrt(max(0.0, middle - half))),
        transform=f"translate({x} {y}) rotate({-turn:.1f})",
        class_=f"doubt {lie.side}",
    )


def _bowl(lie: Lie, at: Spot, head: Head, named: BowlName | None) -> Markup:
    radius = head.game.bowl_mm / 2
    parts = [tag("circle", r=radius, class_="edge")]
    if lie.side == "theirs":
        parts.append(tag("path", d=f"M0 {-radius}L{radius} 0 0 {radius} {-radius} 0z", class_="mark"))
    if named is not None and (named.side, named.number) == (lie.side, lie.number):
        parts.append(tag("circle", r=radius + 45, class_="named"))
    x, y = at
    return tag(
        "g",
        parts,
        class_=f"bowl {lie.side}",
        transform=f"translate({x} {y})",
        data_body=f"{lie.side} {lie.number}",
    )


def _names(lies: list[tuple[Lie, Spot]], head: Head, size: float) -> Iterable[Markup]:
    bodies: list[Spot] = [at for _, at in lies]
    if head.jack.place is not None:
        bodies.append(_on_paper(head.jack.place))
    middles = place(bodies, Sizes(head.game.bowl_mm / 2, 1.6 * size, size), [*_hours(head).values()])
    for (lie, _), (x, y) in zip(lies, middles, strict=False):
        yield text(name(lie), x, y, size, class_="name")


def name(lie: Lie) -> str:
    """A bowl's label: the side's letter, its number, a cross for a toucher's chalk."""
    chalk = "\N{MULTIPLICATION SIGN}" if lie.toucher else ""
    return f"{LETTERS[lie.side]}{lie.number}{chalk}"


def _on_paper(place: Point) -> Spot:
    """Millimetres, the mat at the foot."""
    return mm(place.x_m), -mm(place.y_m)
