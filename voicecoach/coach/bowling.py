"""The player's line and length: where each of our bowls came to rest, seen from the jack as it lay then."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from voicecoach.coach.figures import Figure, Trend, figure, trend
from voicecoach.coach.moments import Moment
from voicecoach.head.holding import filed_gap
from voicecoach.understand.values import Corrected

Hand = Literal["forehand", "backhand"]
SHORT_M, LONG_M = 25.0, 29.0
"""Lengths below, between and from these are called short, middling and long (our own choice: from 23 m, the
shortest that the laws allow, to about 34 m)."""


@dataclass(frozen=True)
class Delivered:
    """One of our bowls at first rest, corrections included."""

    end: int
    number: int
    across_m: float
    """Its centre right of the jack's."""
    along_m: float
    """Its centre past the jack's."""
    gap_m: float
    hand: Hand | None
    """The hand that the note named."""
    length_m: float | None
    """How far up the jack lay, where it was set."""


@dataclass(frozen=True)
class Group:
    """What one part of the bowls shows."""

    name: str
    line: Figure
    length: Figure
    gap: Figure


def delivered(moments: Iterable[Moment]) -> tuple[Delivered, ...]:
    """Our bowls that came to rest with a place, in order; a later correction takes the first call's place."""
    found: dict[tuple[int, int], Delivered] = {}
    jacks: dict[tuple[int, int], Moment] = {}
    for moment in moments:
        name = moment.event.bowl
        if name is None or name.side != "ours" or not moment.stands:
            continue
        key = (moment.end, name.number)
        if moment.note.kind == "bowl_rested":
            jacks[key] = moment
        elif not (isinstance(moment.event.note, Corrected) and key in jacks):
            continue
        one = _delivered(moment, jacks[key], name.number)
        if one is None:
            found.pop(key, None)
        else:
            found[key] = one
    return tuple(found.values())


def _delivered(moment: Moment, rested: Moment, number: int) -> Delivered | None:
    bowl = next((b for b in moment.head.bowls if (b.side, b.number) == ("ours", number)), None)
    place = bowl.place if bowl else None
    jack = rested.head.jack.place
    if place is None or jack is None:
        return None
    across_m, along_m = place.seen_from(jack)
    return Delivered(
        end=moment.end,
        number=number,
        across_m=across_m,
        along_m=along_m,
        gap_m=filed_gap(rested.head.game, place, jack),
        hand=_hand(rested),
        length_m=jack.y_m if rested.head.jack.called else None,
    )


def _hand(moment: Moment) -> Hand | None:
    remarks = getattr(moment.note, "remarks", ())
    return "forehand" if "forehand" in remarks else "backhand" if "backhand" in remarks else None


PARTS: tuple[tuple[str, Callable[[Delivered], bool]], ...] = (
    ("All", lambda _: True),
    ("Forehand", lambda one: one.hand == "forehand"),
    ("Backhand", lambda one: one.hand == "backhand"),
    ("Hand not said", lambda one: one.hand is None),
    (f"Jack under {SHORT_M:.0f} m", lambda one: one.length_m is not None and one.length_m < SHORT_M),
    (
        f"Jack {SHORT_M:.0f} to {LONG_M:.0f} m",
        lambda one: one.length_m is not None and SHORT_M <= one.length_m < LONG_M,
    ),
    (f"Jack {LONG_M:.0f} m and over", lambda one: one.length_m is not None and one.length_m >= LONG_M),
    ("Jack not set", lambda one: one.length_m is None),
)


def groups(bowls: Sequence[Delivered]) -> tuple[Group, ...]:
    """Line and length of all, by hand and by length of the jack; parts without a bowl are left out."""
    chosen = ((name, [one for one in bowls if belongs(one)]) for name, belongs in PARTS)
    return tuple(_group(name, part) for name, part in chosen if part)


def _group(name: str, part: Sequence[Delivered]) -> Group:
    return Group(
        name=name,
        line=figure([one.across_m for one in part]),
        length=figure([one.along_m for one in part]),
        gap=figure([one.gap_m for one in part]),
    )


def gap_trend(bowls: Sequence[Delivered]) -> Trend:
    """How the distance from the jack changes from end to end."""
    return trend([(one.end, one.gap_m) for one in bowls])
