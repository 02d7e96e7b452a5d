"""Our last bowl parted into line and weight, and the length of the next one beside it.

The angle doesn't depend on the length, so bowls sent on one line at different speeds come to rest on one
straight line through the mat: how far that line lies beside the jack is line, how far along it the bowl
came to rest is weight. The aim's advice goes by the same line and the same spread.
"""

from __future__ import annotations

import math

from voicecoach.head.angle import spreads
from voicecoach.head.bodies import PlacedBowl, name_of
from voicecoach.head.learning import NEAREST_M, apart, bowling_now
from voicecoach.head.path import Target
from voicecoach.head.values import Head, Miss, Weight


def last_bowl(head: Head) -> PlacedBowl | None:
    """Our last bowl, which is the player's; None where there is none or it has no place."""
    ours = [bowl for bowl in head.bowls if bowl.side == "ours"]
    place = ours[-1].place if ours else None
    return None if place is None or place.y_m < NEAREST_M else PlacedBowl(ours[-1], place)


def miss(head: Head) -> Miss | None:
    """Whether our last bowl missed the jack by line, by weight, by both or by neither; None without one."""
    last, jack = last_bowl(head), head.jack.place
    if last is None or jack is None:
        return None
    length = math.hypot(*jack)
    right, past = apart(last.place, jack)
    spread = spreads(bowling_now(head), length)
    return Miss(
        bowl=name_of(last.bowl),
        right_m=right * length,
        past_m=past,
        spread_m=spread.across_m,
        line=abs(right) * length >= spread.across_m,
        weight=abs(past) >= spread.along_m,
    )


def weight(head: Head, target: Target) -> Weight | None:
    """How much longer than our last bowl the next one runs; None without a last bowl."""
    last = last_bowl(head)
    if last is None:
        return None
    ran = math.hypot(*last.place)
    runs = math.hypot(target.x_m, target.y_m)
    return Weight(bowl=name_of(last.bowl), longer_m=runs - ran, faster=math.sqrt(runs / ran) - 1.0)
