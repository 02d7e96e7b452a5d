"""A whole journal, read for the coach: its moments, ends and bowls, who played and when."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property

from voicecoach.coach.deliveries import Delivered, delivered
from voicecoach.coach.measure import Measure
from voicecoach.coach.moments import Moment, Section, moments, sections
from voicecoach.describe import Preferences
from voicecoach.head.values import Game, Score
from voicecoach.session.values import Entry
from voicecoach.understand.notes.settings import BeforePlay, Player
from voicecoach.understand.values import Side


@dataclass(frozen=True)
class Record:
    """A journal as the coach's pages need it."""

    moments: tuple[Moment, ...]
    sections: tuple[Section, ...]
    """The plays of its ends, in order."""
    bowls: tuple[Delivered, ...]
    player: str | None
    """What the player was called."""
    left_out: tuple[str, ...]
    """What the round before play left out."""
    began: datetime | None
    ended: datetime | None

    @cached_property
    def game(self) -> Game:
        """How it was played, as last set."""
        return self.moments[-1].head.game if self.moments else Game()

    @cached_property
    def score(self) -> Score:
        """As it stood at last."""
        return self.moments[-1].head.score if self.moments else Score()

    @cached_property
    def measure(self) -> Measure:
        """The units of the page."""
        return Measure(feet=_in_feet(self.moments))

    @cached_property
    def prefs(self) -> Preferences:
        """How the page words things: the sides and units as last wanted, everything in full."""
        if not self.moments:
            return Preferences()
        last = self.moments[-1].prefs
        units = last.units if last.units != "as called" else "feet" if self.measure.feet else "as called"
        return Preferences(sides=last.sides, units=units, hours=last.hours)

    @cached_property
    def order(self) -> dict[tuple[int, int], int]:
        """The place of each play of an end in the game, from 1."""
        return {(section.end, section.play): at for at, section in enumerate(self.sections, start=1)}

    def of(self, side: Side) -> tuple[Delivered, ...]:
        """The bowls of one side."""
        return tuple(one for one in self.bowls if one.side == side)


def record(entries: Sequence[Entry]) -> Record:
    """A journal's entries, read."""
    found = moments(entries)
    parts = sections(found)
    times = [datetime.fromisoformat(entry.at) for entry in (*entries[:1], *entries[-1:]) if entry.at]
    return Record(
        moments=found,
        sections=parts,
        bowls=delivered(parts),
        player=_player(entries),
        left_out=_left_out(entries),
        began=times[0] if times else None,
        ended=times[-1] if times else None,
    )


def _player(entries: Iterable[Entry]) -> str | None:
    named = [
        entry.note.value for entry in entries if entry.outcome == "noted" and isinstance(entry.note, Player)
    ]
    return named[-1] or None if named else None


def _left_out(entries: Iterable[Entry]) -> tuple[str, ...]:
    """The steps before play that were left out at last."""
    became: dict[str, str] = {}
    for entry in entries:
        if entry.outcome == "noted" and isinstance(entry.note, BeforePlay):
            what, _, step = entry.note.value.partition(": ")
            became[step] = what
    return tuple(step for step, what in became.items() if what == "left out")


def _in_feet(found: Sequence[Moment]) -> bool:
    """As the listener wanted it; else as most bowls were called."""
    if not found:
        return False
    wanted = found[-1].prefs.units
    if wanted != "as called":
        return wanted == "feet"
    units = [getattr(moment.note, "unit", None) for moment in found]
    feet = sum(unit in ("ft", "in", "yd") for unit in units)
    return feet > sum(unit in ("m", "cm") for unit in units)
