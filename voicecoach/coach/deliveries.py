"""Every bowl delivered: where it first came to rest, seen from the jack as it lay then, and what it was."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from voicecoach.coach.moments import Moment, Section
from voicecoach.head.holding import filed_gap
from voicecoach.head.values import Bowl, Head
from voicecoach.understand.values import BowlName, Corrected, Side

Hand = Literal["forehand", "backhand"]
Came = Literal["short", "level", "past", "ditch", "lost", "not placed"]
"""What became of a bowl: short of the jack, past it or level by its middle, in the ditch, dead otherwise."""
Name = tuple[Side, int]
_LEVEL_M = 5e-6
"""Middles nearer than this to level differ by the arithmetic alone."""


@dataclass(frozen=True)
class Delivered:
    """One bowl at first rest, as it stood in the end: corrections of that call are in it."""

    end: int
    play: int
    side: Side
    number: int
    came: Came
    hand: Hand | None
    """The hand that the note named."""
    length_m: float | None
    """How far up the jack lay, where it was set."""
    across_m: float | None
    """Its centre right of the jack's, metres; None without a place."""
    along_m: float | None
    """Its centre past the jack's, metres."""
    gap_m: float | None
    rested: Moment
    """The moment of its note."""
    settled: Moment
    """The moment of its note, or of the last correction of that note."""

    @property
    def placed(self) -> bool:
        """Whether it has a place."""
        return self.gap_m is not None


@dataclass
class _Rest:
    """A bowl on its way through the moments."""

    rested: Moment
    settled: Moment
    hand: Hand | None
    moved: bool = False
    """True once it lay elsewhere: corrections then are of that place."""


def delivered(sections: Iterable[Section]) -> tuple[Delivered, ...]:
    """Every bowl delivered, of both sides, in the order in which they were called."""
    return tuple(one for section in sections for one in _of_section(section))


def _of_section(section: Section) -> Iterator[Delivered]:
    rests: dict[Name, _Rest] = {}
    for moment in section.standing:
        rests = _renamed(rests, moment)
        _note(rests, moment)
    for (side, number), rest in rests.items():
        bowl = find(rest.settled.head, side, number)
        if bowl is not None:
            yield _delivered(section, bowl, rest)


def _renamed(rests: dict[Name, _Rest], moment: Moment) -> dict[Name, _Rest]:
    """The same bowls under the names they have after this moment; without those that are gone."""
    if not moment.event.dropped:
        return rests
    # Bowls keep their places in the list when a correction gives them other names.
    before, after = _names(moment.before), _names(moment.head)
    if len(before) == len(after):
        names = dict(zip(before, after, strict=True))
    else:
        names = {name: name for name in before if name in after}
    return {names[name]: rest for name, rest in rests.items() if name in names}


def _names(head: Head) -> list[Name]:
    return [(bowl.side, bowl.number) for bowl in head.bowls]


def _note(rests: dict[Name, _Rest], moment: Moment) -> None:
    """What one standing note does."""
    note, name = moment.note, moment.event.bowl
    if note.kind == "bowl_moved":
        for bowl in moment.event.bowls:
            _moved(rests, moment, bowl)
    if name is None:
        return
    key = (name.side, name.number)
    rest = rests.get(key)
    if note.kind == "bowl_rested" and rest is None and name not in moment.before.scattered:
        rests[key] = _Rest(moment, moment, _hand(moment))
    elif rest is not None and not rest.moved and _settles(moment, name):
        rest.settled, rest.hand = moment, _hand(moment) or rest.hand


def _settles(moment: Moment, name: BowlName) -> bool:
    """A correction of where it first lay, or a second look at it."""
    if name in moment.before.scattered:
        return False
    return isinstance(moment.event.note, Corrected) or moment.note.kind == "bowl_rested"


def _moved(rests: dict[Name, _Rest], moment: Moment, bowl: Bowl) -> None:
    rest, was = rests.get((bowl.side, bowl.number)), find(moment.before, bowl.side, bowl.number)
    if rest is not None and was is not None:
        rest.moved = rest.moved or (was.x_m, was.y_m, was.state) != (bowl.x_m, bowl.y_m, bowl.state)


def find(head: Head, side: Side, number: int) -> Bowl | None:
    """A bowl of a head by its name."""
    return next((bowl for bowl in head.bowls if (bowl.side, bowl.number) == (side, number)), None)


def _delivered(section: Section, bowl: Bowl, rest: _Rest) -> Delivered:
    jack = rest.rested.head.jack
    place, origin = bowl.place, jack.place
    across = along = gap = None
    if place is not None and origin is not None:
        across, along = place.seen_from(origin)
        gap = filed_gap(rest.rested.head.game, place, origin)
    return Delivered(
        end=section.end,
        play=section.play,
        side=bowl.side,
        number=bowl.number,
        came=_came(bowl, along),
        hand=rest.hand,
        length_m=jack.y_m if jack.called else None,
        across_m=across,
        along_m=along,
        gap_m=gap,
        rested=rest.rested,
        settled=rest.settled,
    )


def _came(bowl: Bowl, along_m: float | None) -> Came:
    if bowl.state == "ditch" or "in the ditch" in (bowl.why_dead or ""):
        return "ditch"
    if bowl.state == "dead":
        return "lost"
    if along_m is None:
        return "not placed"
    if abs(along_m) < _LEVEL_M:
        return "level"
    return "short" if along_m < 0 else "past"


def _hand(moment: Moment) -> Hand | None:
    remarks: Sequence[str] = getattr(moment.note, "remarks", ())
    return "forehand" if "forehand" in remarks else "backhand" if "backhand" in remarks else None
