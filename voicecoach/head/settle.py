"""What was said of a place, turned into the mat's frame: words into hours, or the one thing missing."""

from dataclasses import dataclass
from typing import Literal

from voicecoach.head.clock import HOURS
from voicecoach.head.values import Game
from voicecoach.understand.values import ALONG, HOUR_OF, ON_A_HAND, Remark, Side, Where

WORD_WIDTH = 1.5
"""A direction in words is one of eight round the face, so each is an hour and a half wide."""
TOUCH: frozenset[Remark] = frozenset({"touching", "toucher"})
_BETWEEN = {(6.0, 9.0): 7.5, (6.0, 3.0): 4.5, (12.0, 9.0): 10.5, (12.0, 3.0): 1.5}
LeftRight = Literal["left", "right"]


@dataclass(frozen=True)
class Missing:
    """What has to be asked before a place is known."""

    slot: Literal["gap", "hour", "left or right"]


def settled(where: Where, game: Game, side: Side | None) -> Where | Missing:
    """The same place as seen from the mat, with every direction in words made an hour.

    Two distances stay two distances, and "jack high" stays a word beside its `left` or `right`,
    since neither is an hour and a gap.
    """
    seen = where.turned() if game.stood == "head" else where
    against = _against(seen)
    gap = 0.0 if seen.gap_m is None and against else seen.gap_m
    if seen.along_m is not None or seen.across_m is not None:
        return Where(along_m=seen.along_m or 0.0, across_m=seen.across_m or 0.0, unit=seen.unit)
    if gap is None:
        return _first_missing(seen, game, side)
    if seen.hour is not None:
        hour = seen.hour % HOURS or float(HOURS)
        return Where(gap_m=gap, unit=seen.unit, hour=hour, hour_width=seen.hour_width)
    return _by_words(seen, gap, _way(seen.remarks, game, side))


def _first_missing(where: Where, game: Game, side: Side | None) -> Missing:
    """What is asked first of a place without a distance: beside another bowl, on which side."""
    beside = where.landmark is not None and "jack high" in where.remarks
    return Missing("left or right" if beside and _way(where.remarks, game, side) is None else "gap")


def _against(where: Where) -> bool:
    """Whether it lies against what it was called from: a toucher has touched the jack, and no other bowl."""
    if where.landmark is not None:
        return "touching" in where.remarks
    return bool(TOUCH & set(where.remarks)) and "in the ditch" not in where.remarks


def _by_words(where: Where, gap_m: float, way: LeftRight | Missing | None) -> Where | Missing:
    """The place of a bowl whose direction was said in the trade's words."""
    fore = {HOUR_OF[remark] for remark in where.remarks if remark in ALONG and remark in HOUR_OF}
    if isinstance(way, Missing):
        return way
    if "jack high" in where.remarks:
        return _jack_high(where, gap_m, way) if not fore else Missing("hour")
    if len(fore) > 1 or not (fore or way):
        return Missing("hour")
    along = next(iter(fore), None)
    across = HOUR_OF[way] if way else None
    hour = _BETWEEN[(along, across)] if along and across else along or across
    return Where(gap_m=gap_m, unit=where.unit, hour=hour, hour_width=WORD_WIDTH)


def _jack_high(where: Where, gap_m: float, way: LeftRight | None) -> Where | Missing:
    if way is None:
        return Missing("left or right")
    return Where(gap_m=gap_m, unit=where.unit, remarks=("jack high", way))


def _way(remarks: tuple[Remark, ...], game: Game, side: Side | None) -> LeftRight | Missing | None:
    """Left or right, from those words themselves or from the hand's.

    A right-hander's forehand runs out to the right of the centre line and bends back to the left
    (trade knowledge): wide on it is right of the jack, narrow has bent across to the left; the
    backhand and the left hand each mirror that. Only the player's own hand is known.
    """
    said = {remark for remark in remarks if remark in ("left", "right")}
    if len(said) == 1:
        return "left" if "left" in said else "right"
    if said:
        return Missing("left or right")
    if ON_A_HAND.isdisjoint(remarks):
        return None
    on_a_hand = {"forehand", "backhand"} & set(remarks)
    if len(on_a_hand) != 1 or game.hand is None or side == "theirs":
        return Missing("left or right")
    mirrored = ("backhand" in remarks) + (game.hand == "left") + ("narrow" in remarks)
    return "left" if mirrored % 2 else "right"
