"""The player's angle on each hand: as it was named, as called bowls have shown it, or as is usual.

A bowl sent at a known angle to the line from mat to jack, which comes to rest at another angle to that
line, has shown by how much it bends: its place of rest and the mat are the two ends of its own spiral.
The angle is what was named before weighed against what bowls have shown since (normal with a normal
doubt): the more bowls, the less the naming counts.
"""

import math
from typing import Literal, NamedTuple

from voicecoach.head.pace import PACE_AT_M, USUAL_ANGLE_DEG, USUAL_PACE_S, angle_at, pace
from voicecoach.head.values.bowling import Bowling
from voicecoach.head.values.tally import Tally
from voicecoach.understand.values import Hand

NAMED_SD_DEG = 1.0
"""How far a named line may be from the true one: 0.09 m at a mark 5 m away (working value, our choice)."""
USUAL_SD_DEG = 2.0
"""How much the bend of players' bowls differs at one pace: sets of bowls are made with more bias or less
(working value, our own choice)."""
SPREAD_AT_TARGET_M = 0.3
"""The spread of a player's line at the target until enough bowls have shown it, metres (working value)."""
SPREAD_OF_LENGTH_M = 0.8
"""The same of length, metres (working value)."""
ENOUGH = 8
"""So many bowls of a session show the player's own spread."""
WITHIN_95 = 1.96
"""So many standard deviations either side hold 95 of 100."""


class Angle(NamedTuple):
    """One hand's angle, degrees."""

    deg: float
    sd_deg: float
    """Standard deviation of its doubt."""
    by: Literal["usual", "pace", "named", "shown"]
    """What it rests on."""
    bowls: int = 0
    """How many bowls have shown it."""

    @property
    def roughly(self) -> bool:
        """True while nothing is known of this player's own bowls."""
        return self.by in ("usual", "pace")

    @property
    def interval_deg(self) -> tuple[float, float]:
        """Holds the true angle 95 times in 100."""
        return self.deg - WITHIN_95 * self.sd_deg, self.deg + WITHIN_95 * self.sd_deg


class Spreads(NamedTuple):
    """How far from where they are meant a player's bowls come to rest, as standard deviations."""

    across_m: float
    """At the target."""
    along_m: float
    own: bool
    """True when the player's own bowls have shown it."""


def angle(bowling: Bowling, hand: Hand) -> Angle:
    """The angle on that hand."""
    line = bowling.line(hand)
    if line.angle_deg is None:
        known = pace(bowling)
        usual = angle_at(known or USUAL_PACE_S, USUAL_ANGLE_DEG)
        return Angle(usual, USUAL_SD_DEG, "usual" if known is None else "pace")
    one = math.degrees(math.atan2(spreads(bowling, PACE_AT_M).across_m, PACE_AT_M))
    return weighed(line.angle_deg, line.shown, one)


def weighed(named_deg: float, shown: Tally, one_sd_deg: float) -> Angle:
    """A named angle weighed against those that bowls have shown, each as wide as the player's own spread."""
    if not shown.count:
        return Angle(named_deg, NAMED_SD_DEG, "named")
    before, since = 1 / NAMED_SD_DEG**2, shown.count / one_sd_deg**2
    mean = (named_deg * before + shown.mean * since) / (before + since)
    return Angle(mean, 1 / math.sqrt(before + since), "shown", shown.count)


def spreads(bowling: Bowling, distance_m: float) -> Spreads:
    """The player's own spreads at such a distance once enough bowls have shown them, else the usual ones."""
    across, along = bowling.across.spread, bowling.along.spread
    if bowling.across.count < ENOUGH or across is None or along is None:
        return Spreads(SPREAD_AT_TARGET_M, SPREAD_OF_LENGTH_M, own=False)
    return Spreads(across * distance_m, along, own=True)
