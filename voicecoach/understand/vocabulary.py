"""The words a note is made of: sides, units, remarks, a bowl's name, where something lies."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from voicecoach.value import Value

Side = Literal["ours", "theirs"]
Unit = Literal["m", "cm", "yd", "ft", "in", "mat", "bowl"]
Remark = Literal[
    "short",
    "past",
    "jack high",
    "left",
    "right",
    "wide",
    "narrow",
    "forehand",
    "backhand",
    "toucher",
    "touching",
    "in the ditch",
    "dead",
    "out of the rink",
    "live",
    "about",
    "respotted",
    "not a toucher",
    "wrong bias",
]
ALONG: tuple[Remark, ...] = ("jack high", "short", "past")
"""Words for where a bowl lies along the rink; jack high is level with the jack."""
ACROSS: tuple[Remark, ...] = ("left", "right", "wide", "narrow", "forehand", "backhand")
"""Words for where it lies across the rink."""
ON_A_HAND: frozenset[Remark] = frozenset({"wide", "narrow", "forehand", "backhand"})
"""Of these, the ones that mean left or right only by the player's hand."""
DIRECTIONS = (*ALONG, *ACROSS)
"""Every word for a direction, in the order in which they are said back."""
HOUR_OF: Mapping[str, float] = {"short": 6.0, "past": 12.0, "left": 9.0, "right": 3.0}
"""The hour in whose middle a word for a side of the jack lies."""
Hand = Literal["forehand", "backhand"]
Format = Literal["singles", "pairs", "triples", "fours"]


class BowlName(Value):
    """A bowl by its side and number."""

    side: Side
    number: int
    """1 for the side's first bowl of the end."""


class Where(Value):
    """Where something lies or went, as it was said, seen from the jack."""

    gap_m: float | None = None
    """Said distance between nearest points, metres; None when not said."""
    unit: Unit | None = None
    """The unit that was said (the larger one for feet and inches)."""
    hour: float | None = None
    """Said hour, in (0, 12], a half allowed; None when the direction came in words or not at all."""
    hour_width: float = 1.0
    """How wide the said hour is, hours: 1 for an hour, 0.5 for a half-hour, less for "dead on"."""
    remarks: tuple[Remark, ...] = ()
    """The trade's words that were said, in the order said."""
    along_m: float | None = None
    """Said distance along the rink when two distances were said; past the jack is positive."""
    across_m: float | None = None
    """Said distance across the rink when two distances were said; right is positive."""
    landmark: BowlName | None = None
    """The bowl from which distance and direction were said; None where they were said from the jack."""

    def turned(self) -> Where:
        """The same place as someone says it who faces the other way: short stays short, left is right."""
        swapped: dict[Remark, Remark] = {"left": "right", "right": "left"}
        return self.model_copy(
            update={
                "hour": None if self.hour is None else (self.hour + 6.0) % 12.0 or 12.0,
                "across_m": None if self.across_m is None else -self.across_m,
                "remarks": tuple(swapped.get(remark, remark) for remark in self.remarks),
            }
        )
