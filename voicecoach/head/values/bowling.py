"""What is known of the green and of how the player bowls on it: kept with the game, in the journal."""

from __future__ import annotations

from typing import Literal

from voicecoach.head.values.tally import Tally
from voicecoach.understand.values import Hand
from voicecoach.value import Value

HANDS: tuple[Hand, Hand] = ("forehand", "backhand")
OutTo = Literal["right", "left"]


class Line(Value):
    """The player's line on one hand."""

    angle_deg: float | None = None
    """Between the first direction and the straight line to the target, as it was named; None: not named."""
    shown: Tally = Tally()
    """The angles that bowls of ended ends have shown since it was named, degrees."""


class Bowling(Value):
    """The pace of the green, the player's two lines, and how close the player's bowls came."""

    pace_s: float | None = None
    """Seconds that a bowl takes to come to rest 27 m away, as it was said; None: not said."""
    timed: Tally = Tally()
    """The same as it was timed, since it was last said."""
    forehand: Line = Line()
    backhand: Line = Line()
    on_hand: Hand | None = None
    """The hand whose line was named last: our bowls called from then on count for it."""
    across: Tally = Tally()
    """How far our bowls of ended ends came to rest right of the line to the jack, for each metre up."""
    along: Tally = Tally()
    """How far they came to rest past the jack's length, metres."""

    def set_as(self, other: Bowling) -> Bowling:
        """What bowls have shown here, with everything set as it is there."""
        lines: dict[str, Line] = {
            hand: mine if mine.angle_deg == set_now.angle_deg else Line(angle_deg=set_now.angle_deg)
            for hand in HANDS
            for mine, set_now in [(self.line(hand), other.line(hand))]
        }
        return other.model_copy(update={**lines, "across": self.across, "along": self.along})

    def with_line(self, hand: Hand, line: Line) -> Bowling:
        """The same with another line on that hand."""
        return self.model_copy(update={hand: line})

    def line(self, hand: Hand) -> Line:
        """The line on that hand."""
        return self.forehand if hand == "forehand" else self.backhand


def way_out(hand: Hand, player: OutTo | None) -> OutTo:
    """To which side a bowl goes out: a right-hander's forehand to the right, the backhand to the left.

    A left-hander's go the other way (trade knowledge). Who hasn't said is taken for a right-hander.
    """
    return "right" if (hand == "forehand") == (player != "left") else "left"
