"""Notes of the game and its ends: how it is played, an end begun, finished, measured."""

from typing import Literal

from voicecoach.understand.notes.base import AnyNote
from voicecoach.understand.vocabulary import BowlName, Format, Side, Unit


class EndStarted(AnyNote):
    """The next end begins."""

    moves_on = True

    kind: Literal["end_started"] = "end_started"
    confirmed: bool = False


class EndFinished(AnyNote):
    """The end is over, with the shots as agreed on the green, where they were said."""

    moves_on = True

    kind: Literal["end_finished"] = "end_finished"
    side: Side | None = None
    """The side that scored; None when not said or when nobody did."""
    shots: int | None = None
    """Shots agreed; 0 for no score, None when not said."""
    replayed: bool = False
    """True when the end is dead and played again."""
    end: int | Literal["last"] | None = None
    """The number of an earlier end whose score this puts right, or the last one's; None for this end."""
    confirmed: bool = False

    def is_of(self, end: int) -> bool:
        """Whether it is about the end of this number, which is the one under way or just over."""
        return self.end in (None, end)


class ScoreTold(AnyNote):
    """The score of the whole game as it stands by the board."""

    sets_up = True

    kind: Literal["score_told"] = "score_told"
    side: Side | None = None
    """Whose figure `shots` is; None where nobody said which side is ahead."""
    shots: int
    against: int | None = None
    """The other side's shots; None for as many ("ten all")."""
    leads: bool = True
    """True where the side is said to be ahead: the greater figure is its own then, whichever came first."""
    confirmed: bool = False


class GameSet(AnyNote):
    """How the game is played; only what was said is set."""

    sets_up = True

    kind: Literal["game_set"] = "game_set"
    format: Format | None = None
    bowls_each: int | None = None
    lead: Side | None = None
    mat_m: float | None = None
    """Distance of the mat line from the rear ditch, metres."""
    jack_m: float | None = None
    """Distance of the jack from the mat line, metres."""
    rink_m: float | None = None
    """Width of the rink, metres."""
    green_m: float | None = None
    """Length of the green from ditch to ditch, metres."""
    bowl_mm: float | None = None
    jack_mm: float | None = None
    hand: Literal["right", "left"] | None = None
    respot: bool | None = None
    """True when the conditions of play re-spot a dead jack."""
    ends: int | None = None
    """The game ends after this many ends."""
    up_to: int | None = None
    """The game ends when a side reaches this many shots."""
    confirmed: bool = False


class Measured(AnyNote):
    """A tape's figure, or which bowl of a pair the tape found nearer."""

    shown = ("side", "number", "gap_m", "nearer_than")

    kind: Literal["measured"] = "measured"
    side: Side | None = None
    number: int | None = None
    gap_m: float | None = None
    unit: Unit | None = None
    hour: float | None = None
    """The measured hour on a clock face laid round the jack, where one was said beside the figure."""
    nearer_than: BowlName | None = None
    """Where no figure was said: the bowl that `side`, `number` is nearer than."""


EndNote = EndStarted | EndFinished | ScoreTold | GameSet | Measured
