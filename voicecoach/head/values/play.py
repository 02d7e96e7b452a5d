"""One end as noted so far, and the way back through its notes."""

from __future__ import annotations

from dataclasses import dataclass, field

from voicecoach.head.values.bodies import Bowl, Jack, JackMove
from voicecoach.head.values.game import Game, Score
from voicecoach.understand.values import BowlName, Note, Side
from voicecoach.value import Value


class Kept(Value):
    """A note that is remembered with its end as it was said, such as a remark."""

    note: Note
    bowl: BowlName | None = None
    """The bowl it is about, as filed."""


class Head(Value):
    """One end as noted so far, with the game around it."""

    game: Game = Game()
    end: int = 1
    finished: bool = False
    """True between the end's last note and the next end."""
    jack: Jack = Jack()
    jack_moves: tuple[JackMove, ...] = ()
    bowls: tuple[Bowl, ...] = ()
    """In the order in which they were first called."""
    lead: Side | None = None
    """Who leads this end, when known; once the end is finished, who leads the next."""
    last_side: Side | None = None
    """Whose bowl was delivered last in this end."""
    score: Score = Score()
    nearer: tuple[tuple[BowlName, BowlName], ...] = ()
    """Pairs that a tape decided without a figure, the nearer bowl first."""
    scattered: tuple[BowlName, ...] = ()
    """To be called again, in this order."""
    kept: tuple[Kept, ...] = ()
    """Notes of this end that are remembered as they were said, in order (`kept_with_the_end`)."""


@dataclass(frozen=True)
class Play:
    """The head now, and the chain of heads that notes can be taken back to."""

    head: Head
    before: Play | None = field(default=None, compare=False, repr=False)
    """The play before the last note that can be taken back; None when there is none."""
    note: Note | None = field(default=None, compare=False, repr=False)
    """The last note that can be taken back: what a correction without a name means."""
    bowl: BowlName | None = field(default=None, compare=False, repr=False)
    """The bowl that note filed or changed."""
    recalled: BowlName | None = field(default=None, compare=False, repr=False)
    """The bowl whose correction was just taken back: what is said without a name goes on about it."""
    base: Play | None = field(default=None, compare=False, repr=False)
    """The play on which that note was decided: a correction without a name decides it there again."""
