"""What this stage gives: notes, the question that is open, the ranked meanings of an utterance."""

from typing import Literal

from voicecoach.understand.notes import Note, says_all_of
from voicecoach.understand.notes.asking import Aim, Question, Topic, Walk
from voicecoach.understand.notes.bowls import BowlMoved, BowlRested
from voicecoach.understand.notes.corrections import Corrected, Declined, TakenBack
from voicecoach.understand.notes.ends import EndFinished, EndStarted, GameSet, Measured
from voicecoach.understand.notes.jack import JackMoved, JackSet
from voicecoach.understand.notes.lines import LineAsked, WhatIf
from voicecoach.understand.vocabulary import (
    ACROSS,
    ALONG,
    DIRECTIONS,
    HOUR_OF,
    ON_A_HAND,
    BowlName,
    Format,
    Hand,
    Remark,
    Side,
    Unit,
    Where,
)
from voicecoach.value import Value

__all__ = [
    "ACROSS",
    "ALONG",
    "DIRECTIONS",
    "HOUR_OF",
    "ON_A_HAND",
    "Aim",
    "BowlMoved",
    "BowlName",
    "BowlRested",
    "Corrected",
    "Declined",
    "EndFinished",
    "EndStarted",
    "Expected",
    "Format",
    "GameSet",
    "Hand",
    "JackMoved",
    "JackSet",
    "LineAsked",
    "Measured",
    "Note",
    "OpenQuestion",
    "Question",
    "Ranked",
    "Remark",
    "Side",
    "Slot",
    "TakenBack",
    "Topic",
    "Unclear",
    "Unit",
    "Walk",
    "WhatIf",
    "Where",
    "says_all_of",
]

Slot = Literal["side", "number", "gap", "hour", "left or right", "choice", "yes or no"]


class OpenQuestion(Value):
    """What was last asked back, and the note that waits for the answer."""

    slot: Slot
    """The only thing that is in doubt."""
    choices: tuple[Note, ...] = ()
    """The whole notes offered, one for each answer, the likeliest first; empty when any answer will do."""
    answers: tuple[str, ...] = ()
    """The words that choose each of `choices`, in the phrase book's spelling: `two o'clock`, `moved`."""
    pending: Note
    """The note that is taken once its slot is filled (or, for yes or no, once it is confirmed)."""
    ask: str
    """The question, as spoken."""
    figure: float | None = None
    """A number that was said without its unit, where that is what is asked for: "five"."""


class Maybe(Value):
    """What may have been meant, and how likely it is."""

    note: Note
    probability: float


class Expected(Value):
    """What is expected next: comes in with the call, from the session."""

    next_side: Side = "ours"
    next_number: int = 1
    open: OpenQuestion | None = None
    """The question that is open, if any."""
    after_s: float | None = None
    """Seconds of silence since the last note was filed; None when unknown (typed notes)."""
    lying: tuple[BowlName, ...] = ()
    """The bowls already called in this end."""
    nearest: tuple[BowlName, ...] = ()
    """The bowls that have a place, the nearest to the jack first: what "their shot bowl" means."""
    walking: bool = False
    """True while a walk is under way: next, back, again and here then mean the walk."""
    finished: bool = False
    """True once the end is over, until the next: another score then is the right one."""
    ditched: bool = False
    """True while the last note is of a jack that went into the ditch: "straight back" then says where."""
    timing: bool = False
    """True from "away" until "stopped", while the time of a bowl may be taken."""
    keeping: bool = False
    """True while the sound of what is said is kept: "forget that" may then mean the sound."""
    reading: bool = False
    """True while a read-back in groups is under way: next, back and again then mean it."""
    format: Format | None = None
    """The game that is set: whose bowl "our lead's second" is."""
    bowls_each: int | None = None
    """Bowls of each player, where that was said."""
    feet: bool = False
    """True where feet and inches are spoken: a figure without its unit says nothing then."""
    bowl_m: float = 0.121
    """Diameter of a bowl, metres, for "a bowl's width"."""
    call_word: str | None = None
    """The word that must begin a note, if one is set."""
    your: Side | None = None
    """Whose bowls "your" means, where that is known of the caller: "their" is misheard so."""
    murmured_s: float | None = None
    """Seconds since speech of which nothing was made, where that came just before; None where it didn't."""
    unsure: tuple[Maybe, ...] = ()
    """What may have been meant just before and was asked about: it is likely to be said again."""


class Ranked(Value):
    """The meanings of one utterance, the likeliest first."""

    notes: tuple[Note, ...]
    probabilities: tuple[float, ...]
    """One for each note; they add up to 1 at most, the rest being "no note"."""
    doubt: OpenQuestion | None = None
    """The question to ask back when the first meaning isn't sure enough; None to accept it."""


class Unclear(Value):
    """No whole note was understood."""

    why: Literal["chatter", "incomplete", "contradiction", "unclear"]
    """chatter: drop in silence. The others: ask or refuse aloud."""
    say: str = ""
    """What is wrong and what to do, for the ear; empty for chatter."""
    doubt: OpenQuestion | None = None
    """The question to ask back, where one would settle it (a missing hour, two hours that disagree)."""
    maybe: tuple[Maybe, ...] = ()
    """What may have been meant all the same."""
