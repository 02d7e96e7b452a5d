"""The bodies of a head: which lie where, how large they are, and which of them stand in each other's way."""

import math
from dataclasses import dataclass

from voicecoach.head.values import Bowl, Game, Head
from voicecoach.understand.values import BowlName

SLACK_M = 1e-9
"""Bodies that touch are filed this much apart, so that arithmetic never makes them overlap."""


@dataclass(frozen=True)
class Body:
    """Something round that lies on the green or in the ditch."""

    name: BowlName | None
    """None for the jack."""
    x_m: float
    y_m: float
    radius_m: float

    def gap_to(self, x_m: float, y_m: float, radius_m: float) -> float:
        """Between nearest points with a round body there, metres; negative where the two overlap."""
        return math.hypot(x_m - self.x_m, y_m - self.y_m) - self.radius_m - radius_m


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


def bowls_in_place(head: Head, without: BowlName | None = None) -> list[Body]:
    """Every bowl that has a place, except one."""
    radius = bowl_radius(head.game)
    return [
        Body(name_of(bowl), bowl.x_m, bowl.y_m, radius)
        for bowl in head.bowls
        if bowl.x_m is not None
        and bowl.y_m is not None
        and not (without and bowl.number == without.number and bowl.side == without.side)
    ]


def jack_in_place(head: Head) -> list[Body]:
    """The jack, if it isn't dead."""
    jack = head.jack
    if jack.x_m is None or jack.y_m is None:
        return []
    return [Body(None, jack.x_m, jack.y_m, jack_radius(head.game))]
