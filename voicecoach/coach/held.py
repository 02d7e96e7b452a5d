"""Who held shot after each bowl delivered, by one rule for the page and the export.

Side and shots are those of the filed places, counted as the laws count; level bowls are nobody's. Whether
it is sure is what the sampled heads say of that very side.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from voicecoach.coach.deliveries import Delivered
from voicecoach.coach.moments import Moment, Section
from voicecoach.head import picture
from voicecoach.head.holding import counted
from voicecoach.head.values import Head, Picture
from voicecoach.understand.values import BowlName, Side

Who = Literal["ours", "theirs", "level", "empty"]
"""`level`: the nearest bowls of both sides are equally near. `empty`: no live bowl, or no live jack."""


@dataclass(frozen=True)
class Holds:
    """Who holds shot in one head."""

    who: Who
    shots: int
    sure: bool
    """False where it is too close to call from the doubt of the calls."""

    @property
    def side(self) -> Side | None:
        """The side that holds, if one does."""
        return None if self.who in ("level", "empty") else self.who  # type: ignore[return-value]


@dataclass(frozen=True)
class HeldAfter:
    """One bowl delivered, and who held once all that it did was noted."""

    bowl: BowlName
    one: Delivered
    after: Moment
    """The last moment before the next bowl."""
    holds: Holds


@lru_cache(maxsize=64)
def seen(head: Head) -> Picture:
    """The head worked out, kept for a while: page and export ask for the same one several times."""
    return picture(head)


def holds(head: Head) -> Holds:
    """Who holds shot in a head."""
    side, shots = counted(head)
    holding = seen(head).holding
    live = head.jack.x_m is not None and any(bowl.x_m is not None for bowl in head.bowls)
    who: Who = side or ("level" if live else "empty")
    return Holds(who, shots, holding is None or (holding.sure and holding.side == side))


def steps(section: Section, bowls: Sequence[Delivered]) -> tuple[HeldAfter, ...]:
    """A step for each bowl delivered in this play, in order; `bowls` are those of the whole game."""
    mine = [one for one in bowls if (one.end, one.play) == (section.end, section.play)]
    mine.sort(key=lambda one: one.rested.entry.number)
    return tuple(_steps(section, mine))


def _steps(section: Section, mine: Sequence[Delivered]) -> Iterator[HeldAfter]:
    for one, following in zip(mine, [*mine[1:], None], strict=False):
        until = following.rested.entry.number if following else None
        after = [
            moment
            for moment in section.standing
            if moment.entry.number >= one.rested.entry.number
            and (until is None or moment.entry.number < until)
        ][-1]
        name = BowlName(side=one.side, number=one.number)
        yield HeldAfter(name, one, after, holds(after.head))


def counts(found: Sequence[HeldAfter]) -> Counter[Who]:
    """After how many bowls each side held, and after how many nobody did: together all of them."""
    return Counter(step.holds.who for step in found)


def changes(found: Sequence[HeldAfter]) -> tuple[HeldAfter, ...]:
    """The bowls that took the shot from somebody, or from nobody."""
    before: Who = "empty"
    taken = []
    for step in found:
        if step.holds.who != before:
            taken.append(step)
        before = step.holds.who
    return tuple(taken)
