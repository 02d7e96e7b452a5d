"""A club's own facts, from a small file that the coach fills in."""

from typing import Annotated, ClassVar

from pydantic import Field

from voicecoach.value import Value

Text = Annotated[str, Field(min_length=1, max_length=300)]
Figure = Annotated[float, Field(gt=0)]


class Club(Value):
    """What the round before play says of a club. None: the coach hasn't told."""

    TEXTS: ClassVar[tuple[str, ...]] = (
        "rooms",
        "toilets",
        "route",
        "hazards",
        "first_aid",
        "getting_on",
        "getting_off",
        "sides",
        "drinks",
    )
    """The fields that are spoken as written."""

    name: Text | None = None
    """What the club is called."""
    rooms: Text | None = None
    """The rooms, as one walks in."""
    toilets: Text | None = None
    """Where they are, and how they lock."""
    route: Text | None = None
    """The way from the rooms to the green."""
    hazards: Text | None = None
    """What to mind on that way."""
    first_aid: Text | None = None
    """Where it is, and who gives it."""
    getting_on: Text | None = None
    """Where and how one gets on the green."""
    getting_off: Text | None = None
    """Where and how one gets off it."""
    sides: Text | None = None
    """How the sides of a rink are marked."""
    drinks: Text | None = None
    """Drinks, seats and shade."""
    green_m: Figure | None = None
    """Length of the green from ditch to ditch, metres."""
    rink_m: Figure | None = None
    """Width of a rink, metres."""
    ditch_width_mm: Figure | None = None
    ditch_depth_mm: Figure | None = None
    bank_mm: Figure | None = None
    """Height of the bank above the green, millimetres."""

    def lengths(self) -> dict[str, float]:
        """The figures that are spoken, metres, by the names that sentences give them."""
        found = {
            "green": self.green_m,
            "rink": self.rink_m,
            "ditch_width": _metres(self.ditch_width_mm),
            "ditch_depth": _metres(self.ditch_depth_mm),
            "bank": _metres(self.bank_mm),
        }
        return {name: value for name, value in found.items() if value is not None}


def _metres(millimetres: float | None) -> float | None:
    return None if millimetres is None else millimetres / 1000
