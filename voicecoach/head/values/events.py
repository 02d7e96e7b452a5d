"""What a note did to the head."""

from __future__ import annotations

from typing import Literal

from voicecoach.head.values.bodies import Bowl, Jack, JackMove
from voicecoach.head.values.facts import Fact
from voicecoach.head.values.game import Game, Score
from voicecoach.head.values.looks import Miss
from voicecoach.understand.values import BowlName, Note, Side
from voicecoach.value import Value


class AimAdvice(Value):
    """How far to move the mark that the player aims at, and which way."""

    shift_m: float
    """How far the mark moves across the rink, metres, never negative."""
    towards: Literal["left", "right"]
    at_m: float
    """How far the mark is in front of the mat line, metres."""
    spread_m: float
    """Standard deviation of that shift, from the call's doubt and the player's own scatter, metres."""
    leave_it: bool = False
    """True when the shift is smaller than the player's own scatter."""
    miss: Miss | None = None
    """The miss parted into line and weight; None in journals from before it was kept."""


class Event(Value):
    """What a note did: facts as they are after it, already worked out, so that replaying needs no rule."""

    note: Note
    """The note as said, with what it left open filled in (the target of a correction)."""
    bowl: BowlName | None = None
    """The bowl it is about, as filed."""
    bowls: tuple[Bowl, ...] = ()
    """The bowls it filed or changed, as they are after it."""
    dropped: tuple[BowlName, ...] = ()
    """The bowls that are no longer there under this name after it."""
    jack: Jack | None = None
    jack_moves: tuple[JackMove, ...] | None = None
    """Every jack move of the end after it, where that list changed."""
    game: Game | None = None
    score: Score | None = None
    end: int | None = None
    """The number of the end that it began, where it began one."""
    finished: bool | None = None
    tossed: bool = False
    """True where a toss decides who leads the end that it began: nobody does until that is said."""
    lead: Side | None = None
    last_side: Side | None = None
    undoes: bool = False
    """True for a note taken back: the last head before it stands again."""
    remarks: tuple[Fact, ...] = ()
    """Facts worth saying."""
    law: str | None = None
    """The number of the law that it follows, where one decided it."""
    redone: Note | None = None
    """The last note with the correction in it, where a correction decided it again."""
    nearer: tuple[tuple[BowlName, BowlName], ...] | None = None
    """Every pair that a tape decided, where that list changed."""
    scattered: tuple[BowlName, ...] | None = None
    """The bowls still to be called again, where that list changed."""
    aim: AimAdvice | None = None
