"""Many games on one page: what is kept of each is small, so that a thousand take no more memory than ten."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import datetime

from voicecoach.coach import bowling
from voicecoach.coach.deliveries import Came, Delivered
from voicecoach.coach.eye import FAR_M, Far
from voicecoach.coach.figures import Figure, from_sums
from voicecoach.coach.looks import looks_in
from voicecoach.coach.record import Record, record
from voicecoach.head.ends import is_over
from voicecoach.session.values import Entry
from voicecoach.understand.values import Format, Side

SIDES: tuple[Side, Side] = ("ours", "theirs")


@dataclass
class Sums:
    """How many figures there are, their sum and the sum of their squares."""

    count: int = 0
    total: float = 0.0
    squares: float = 0.0

    def add(self, value: float) -> None:
        """One more figure."""
        self.count += 1
        self.total += value
        self.squares += value * value

    def merge(self, other: Sums) -> None:
        """Those of another part, too."""
        self.count += other.count
        self.total += other.total
        self.squares += other.squares

    @property
    def figure(self) -> Figure:
        """What they show."""
        return from_sums(self.count, self.total, self.squares)


@dataclass
class Tally:
    """What is kept of some bowls."""

    count: int = 0
    came: Counter[Came] = field(default_factory=Counter)
    line: Sums = field(default_factory=Sums)
    length: Sums = field(default_factory=Sums)
    gap: Sums = field(default_factory=Sums)

    def add(self, one: Delivered) -> None:
        """One more bowl."""
        self.count += 1
        self.came[one.came] += 1
        if one.across_m is not None and one.along_m is not None and one.gap_m is not None:
            self.line.add(one.across_m)
            self.length.add(one.along_m)
            self.gap.add(one.gap_m)

    def merge(self, other: Tally) -> None:
        """The bowls of another part, too."""
        self.count += other.count
        self.came.update(other.came)
        self.line.merge(other.line)
        self.length.merge(other.length)
        self.gap.merge(other.gap)


@dataclass(frozen=True)
class Game:
    """What is kept of one game."""

    name: str
    began: datetime | None
    format: Format | None
    ours: int
    theirs: int
    ends: int
    over: bool
    """True where the game had reached its ends or its shots."""
    bowls: Tally
    """All of ours."""
    eye: dict[str, Far]
    """The director's calls that were taped, by where the director stood."""


@dataclass
class Season:
    """Games in the order in which they were played, and what all of them together show."""

    games: list[Game] = field(default_factory=list)
    parts: dict[tuple[Side, str, str], Tally] = field(default_factory=dict)
    """By side, the way of parting (`hand`, ...) and the name of the part."""
    hands: set[str | None] = field(default_factory=set)
    """The player's own hand in each game; wide and narrow are only told where it was always one."""
    feet: int = 0
    """Games called in feet."""
    yours: int = 0
    """Games in which the player's side was called yours."""
    empty: int = 0
    """Journals without a head."""

    @property
    def hand(self) -> str | None:
        """The player's hand, where it was the same in every game."""
        return next(iter(self.hands)) if len(self.hands) == 1 else None

    def add(self, name: str, entries: Sequence[Entry]) -> None:
        """One more journal."""
        found = record(entries)
        if not found.moments:
            self.empty += 1
            return
        self.games.append(_game(name, found))
        self.hands.add(found.game.hand)
        self.feet += found.measure.feet
        self.yours += found.prefs.sides == "yours"
        for side in SIDES:
            for kind in bowling.KINDS:
                self._part(side, kind, found)

    def _part(self, side: Side, kind: str, found: Record) -> None:
        bowls = found.of(side)
        for name, belongs in bowling.parts(kind, found.game, bowls):
            for one in bowls:
                if belongs(one):
                    self.parts.setdefault((side, kind, name), Tally()).add(one)


def season(journals: Iterable[tuple[str, Sequence[Entry]]]) -> Season:
    """Every journal, read one after another, by name; the games then stand in the order they began."""
    whole = Season()
    for name, entries in journals:
        whole.add(name, entries)
    whole.games.sort(key=lambda game: (game.began.timestamp() if game.began else 0.0, game.name))
    return whole


def _game(name: str, found: Record) -> Game:
    bowls = Tally()
    for one in found.of("ours"):
        bowls.add(one)
    return Game(
        name=name,
        began=found.began,
        format=found.game.format,
        ours=found.score.ours,
        theirs=found.score.theirs,
        ends=found.score.ends,
        over=is_over(found.game, found.score),
        bowls=bowls,
        eye=_eye(found),
    )


def _eye(found: Record) -> dict[str, Far]:
    eye: dict[str, Far] = {}
    for look in looks_in(found.moments):
        if look.true_gap_m >= FAR_M:
            eye.setdefault(look.stood, Far()).add(look)
    return eye


@dataclass(frozen=True)
class Span:
    """Some games one after another, taken together."""

    first: int
    last: int
    """Their places in the season, from 1."""
    bowls: Tally

    @property
    def name(self) -> str:
        """`3`, `3-5`."""
        return f"{self.first}" if self.first == self.last else f"{self.first}\N{EN DASH}{self.last}"


def spans(games: Sequence[Game], most: int) -> tuple[Span, ...]:
    """The games in at most so many spans, each of as many as the others."""
    each = max(1, -(-len(games) // most))
    return tuple(_span(games, start, min(start + each, len(games))) for start in range(0, len(games), each))


def _span(games: Sequence[Game], start: int, end: int) -> Span:
    whole = Tally()
    for game in games[start:end]:
        whole.merge(game.bowls)
    return Span(start + 1, end, whole)


@dataclass(frozen=True)
class Looked:
    """Taped calls from one place, in games one after another."""

    stood: str
    first: int
    last: int
    eye: Far


def looked(games: Sequence[Game], fewest: int) -> Iterator[Looked]:
    """The director's eye over time: from each place, games together until there are enough calls."""
    for stood in ("mat", "head"):
        held, first = Far(), 1
        for place, game in enumerate(games, start=1):
            held.merge(game.eye.get(stood, Far()))
            if held.count >= fewest:
                yield Looked(stood, first, place, held)
                held, first = Far(), place + 1
        if held.count:
            yield Looked(stood, first, len(games), held)
