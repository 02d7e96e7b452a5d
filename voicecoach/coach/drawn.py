"""What a drawing of an end is: its marks, how each moment sets them, and how the page wants it drawn."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from markupsafe import Markup

from voicecoach.coach.deliveries import Name
from voicecoach.coach.measure import Measure
from voicecoach.understand.values import Side

Change = list[int | float | str]
"""The number of a bowl, then where it lies and its outline of doubt and name, or nothing: it is gone."""


class Spot(NamedTuple):
    """One bowl in one state of the drawing, whole millimetres down the page; the turn in degrees."""

    x: int
    y: int
    long: int
    short: int
    turn: float
    label_x: int
    label_y: int
    label: str


@dataclass(frozen=True)
class Manner:
    """How a page draws: its units, the letter of each side, and what the drawing is said to be."""

    measure: Measure
    letters: Mapping[Side, str]
    said: str


@dataclass(frozen=True)
class State:
    """The drawing at one moment."""

    spots: dict[Name, Spot]
    jack: tuple[int, int] | None


@dataclass(frozen=True)
class Drawn:
    """The drawing as the end was left, and how it came to be."""

    svg: Markup
    names: tuple[Name, ...]
    """The bowls in the order of their marks."""
    states: tuple[State, ...]

    def changes(self, at: int) -> list[Change]:
        """What this state changes in the one before it."""
        was = self.states[at - 1].spots if at else {}
        now = self.states[at].spots
        return [
            [number, *now.get(name, ())]
            for number, name in enumerate(self.names)
            if now.get(name) != was.get(name)
        ]
