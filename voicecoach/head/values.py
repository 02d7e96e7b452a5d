"""The head as it lies, what changes it, and how it looks from the jack now."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from voicecoach.understand.values import BowlName, Format, Note, OpenQuestion, Side, Unit, Where
from voicecoach.value import Value

State = Literal["live", "ditch", "dead"]
Sure = Literal["plain", "about", "between"]


class Said(Value):
    """What was called, kept as called."""

    gap_m: float | None
    hour: float | None
    unit: Unit | None = None
    remarks: tuple[str, ...] = ()


class Judging(Value):
    """How one director judges from one place, as found by a tape."""

    says: float = 1.0
    """Called distance for each metre of the true one: below 1 calls short."""
    relative_sd: float = 0.15
    """Relative standard deviation of a called distance."""
    floor_m: float = 0.06
    """Standard deviation of a called distance near the jack, metres: it never gets finer."""
    hour_shift: float = 0.0
    """Called hour less the true one, hours."""
    hour_sd: float = 0.0
    """Standard deviation of a called hour beyond what the hour's own width makes, hours."""


class Eye(Value):
    """A director's eye from the mat and from the head; None where no tape has said enough of it."""

    mat: Judging | None = None
    head: Judging | None = None


class Call(Value):
    """One estimate of a place: what was called, from where, by whom (judging None: the working values)."""

    where: Where
    jack_moves: int
    """How many jack moves had been noted in this end when it was called."""
    stood: Literal["mat", "head", "tape"] = "mat"
    relative_sd: float
    """Relative standard deviation of the called distance."""
    by: bool = False
    """True when it says how far and which way the bowl moved from its place before."""
    judging: Judging | None = None


class Bowl(Value):
    """One bowl of the end; places are the centre of its footprint in the end's frame, metres."""

    side: Side
    number: int
    x_m: float | None
    y_m: float | None
    state: State = "live"
    toucher: bool = False
    why_dead: str | None = None
    said: Said | None = None
    as_called: bool = True
    """True until the jack (or the bowl) moves: then what is spoken is recomputed."""
    calls: tuple[Call, ...] = ()


class Jack(Value):
    """The jack; x_m and y_m are its centre in the end's frame, metres; None when dead."""

    x_m: float | None = 0.0
    y_m: float | None = 27.0
    state: State = "live"
    called: bool = False
    """False while it lies at the default length because nobody has set it."""
    last: tuple[float, float] | None = None
    """Where a dead jack's centre lay last, metres."""


class JackMove(Value):
    """One jack move as called: displacement of its centre, metres, and how it was called."""

    dx_m: float
    dy_m: float
    where: Where
    """How far and which way, in the mat's frame; with the word `respotted` it was placed, exactly."""
    relative_sd: float
    stood: Literal["mat", "head", "tape"] = "mat"
    judging: Judging | None = None


class Game(Value):
    """How the game is played. None: not set."""

    format: Format | None = None
    bowls_each: int | None = None
    lead: Side | None = None
    mat_m: float | None = None
    jack_m: float | None = None
    rink_m: float | None = None
    green_m: float | None = None
    bowl_mm: float = 121.0
    jack_mm: float = 64.0
    hand: Literal["right", "left"] | None = None
    respot: bool = False
    ends: int | None = None
    up_to: int | None = None
    relative_sd: float = 0.15
    """Relative standard deviation of the director's called distances (working value)."""
    stood: Literal["mat", "head"] = "mat"
    """Where the caller stands."""
    eye: Eye = Eye()
    """How the director judges, where a tape has told."""
    shortest_jack_m: float = 23.0
    """The jack length below which the law is asked about: the law's, or a shorter one once agreed to."""
    sure_at: float = 0.9
    """The probability from which who holds, and how many, is said plainly."""
    aim_at_m: float = 5.0
    """Distance of the mark that the player aims at in front of the mat line, metres."""


class Score(Value):
    """Shots and ends played."""

    ours: int = 0
    theirs: int = 0
    ends: int = 0


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
    base: Play | None = field(default=None, compare=False, repr=False)
    """The play on which that note was decided: a correction without a name decides it there again."""


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
    lead: Side | None = None
    last_side: Side | None = None
    undoes: bool = False
    """True for a note taken back: the last head before it stands again."""
    remarks: tuple[str, ...] = ()
    """Facts worth saying, in the phrase book's spelling."""
    law: str | None = None
    """The number of the law that it follows, where one decided it."""
    redone: Note | None = None
    """The last note with the correction in it, where a correction decided it again."""
    nearer: tuple[tuple[BowlName, BowlName], ...] | None = None
    """Every pair that a tape decided, where that list changed."""
    scattered: tuple[BowlName, ...] | None = None
    """The bowls still to be called again, where that list changed."""
    aim: AimAdvice | None = None


class Ask(Value):
    """A question back: nothing is filed until it is answered."""

    open: OpenQuestion
    law: str | None = None
    """The law's number, where one is the reason."""


class Refused(Value):
    """A note that can't be carried out, and why."""

    why: str
    """One sentence for the ear: what is wrong and what to do."""


class Lie(Value):
    """How one bowl lies now, seen from the jack; None where it has no place (dead)."""

    side: Side
    number: int
    x_m: float | None
    y_m: float | None
    gap_m: float | None
    """Between nearest points, metres."""
    hour_exact: float | None
    """In (0, 12]."""
    hour: float | None
    """As it would be spoken: as called until the jack moves, then a whole hour 1 to 12."""
    sure: Sure = "plain"
    between: tuple[int, int] | None = None
    """The two hours, clockwise, when sure is `between`."""
    gap_sd_m: float = 0.0
    """Standard deviation of the gap, metres."""
    doubt: tuple[float, float, float] | None = None
    """Of its place seen from the jack: variance across, variance along, covariance; square metres."""
    left_right: Literal["left", "right"] | None = None
    """Only where it is wrong with no more than the stated probability."""
    depth: Literal["short", "past", "jack high"] | None = None
    along_m: float | None = None
    """Centre of the bowl past the jack's centre, along the rink, metres."""
    across_m: float | None = None
    """Centre of the bowl right of the jack's centre, metres."""
    said: Said | None = None
    state: State = "live"
    toucher: bool = False
    why_dead: str | None = None
    measured: bool = False
    """True when a tape gave the gap."""
    unit: Unit | None = None
    """The unit it was called in, for speaking it back the same way."""


class Holding(Value):
    """Who holds shot; `side` is the likelier side even when `sure` is false."""

    side: Side | None
    shots: int | None
    """None when the count is unsure."""
    sure: bool
    probability: float
    """That `side` holds."""


class Picture(Value):
    """The head worked out for speech: everything the describing stage needs."""

    head: Head
    lies: tuple[Lie, ...] = ()
    """In the order in which the bowls were first called."""
    holding: Holding | None = None
    """None only for a head without bowls."""
    next_up: BowlName | None = None
    """None when all of the end's bowls are called, or the end is over."""
    to_come: tuple[int, int] | None = None
    """Bowls of ours and of theirs not yet called in this end; None while the format isn't set."""
