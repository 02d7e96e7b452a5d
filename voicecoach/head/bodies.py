"""The bodies of a head: which lie where, how large they are, and which of them stand in each other's way."""

import math
from dataclasses import dataclass
from typing import NamedTuple

from voicecoach.head.values import Bowl, Game, Head, Point
from voicecoach.understand.values import BowlName

SLACK_M = 1e-9
"""Bodies that touch are filed this much apart, so that arithmetic never makes them overlap."""


@dataclass(frozen=True)
class Body:
    """Something round that lies on the green or in the ditch."""

    name: BowlName | None
    """None for the jack."""
    place: Point
    radius_m: float

    def gap_to(self, place: Point, radius_m: float) -> float:
        """Between nearest points with a round body there, metres; negative where the two overlap."""
        return math.dist(place, self.place) - self.radius_m - radius_m


def bowl_radius(game: Game) -> float:
    """Metres."""
    return game.bowl_mm / 2000


def jack_radius(game: Game) -> float:
    """Metres."""
    return game.jack_mm / 2000


def name_of(bowl: Bowl) -> BowlName:
    """The bowl's name."""
    return BowlName(side=bowl.side, number=bowl.number)


def find(head: Head, name: BowlName) -> Bowl | None:
    """The bowl of that name, if it was called in this end."""
    for bowl in head.bowls:
        if bowl.number == name.number and bowl.side == name.side:
            return bowl
    return None


class PlacedBowl(NamedTuple):
    """A bowl that has a place, and that place."""

    bowl: Bowl
    place: Point


def lying(head: Head) -> list[PlacedBowl]:
    """Every bowl that has a place, in the order first called."""
    return [PlacedBowl(bowl, bowl.place) for bowl in head.bowls if bowl.place is not None]


class Seen(NamedTuple):
    """A bowl that has a place, seen from a jack that has one."""

    bowl: Bowl
    place: Point
    jack: Point


def seen(head: Head) -> list[Seen]:
    """Every bowl that has a place, seen from the jack; none where the jack is dead."""
    jack = head.jack.place
    return [] if jack is None else [Seen(bowl, place, jack) for bowl, place in lying(head)]


def bowls_in_place(head: Head, without: BowlName | None = None) -> list[Body]:
    """Every bowl that has a place, except one."""
    radius = bowl_radius(head.game)
    return [
        Body(name_of(bowl), place, radius)
        for bowl, place in lying(head)
        if not (without and bowl.number == without.number and bowl.side == without.side)
    ]


def jack_in_place(head: Head) -> list[Body]:
    """The jack, if it isn't dead."""
    place = head.jack.place
    return [] if place is None else [Body(None, place, jack_radius(head.game))]
