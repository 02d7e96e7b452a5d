"""What a note can say: one class for each kind, exactly as it was said."""

from typing import Annotated, Literal

from pydantic import Field

from voicecoach.understand.vocabulary import Ask, BowlName, Format, Side, Unit, Where
from voicecoach.value import Value


class BowlRested(Where):
    """A bowl came to rest. `side` and `number` are None when not said."""

    kind: Literal["bowl_rested"] = "bowl_rested"
    side: Side | None = None
    number: int | None = None
    confirmed: bool = False
    """True once the speaker has answered yes to a question about this very note."""


class BowlMoved(Where):
    """A bowl that lay was moved, knocked out, ditched, or called a toucher; `where` is its new place."""

    kind: Literal["bowl_moved"] = "bowl_moved"
    side: Side | None = None
    number: int | None = None
    by: bool = False
    """True when the distance and hour say how far and which way it moved, not where it lies now."""
    scattered: bool = False
    """True for "the head has scattered": every live bowl is to be called again."""
    confirmed: bool = False


class JackSet(Value):
    """The jack was set at the start of an end."""

    kind: Literal["jack_set"] = "jack_set"
    length_m: float | None = None
    """Distance from the mat line, metres."""
    confirmed: bool = False


class JackMoved(Where):
    """The jack moved: by `gap_m` towards `hour` (or in the words of `remarks`)."""

    kind: Literal["jack_moved"] = "jack_moved"
    length_m: float | None = None
    """Its new distance from the mat line, where that was said instead."""
    confirmed: bool = False


class TakenBack(Value):
    """The last note is taken back."""

    kind: Literal["taken_back"] = "taken_back"


class Corrected(Where):
    """A correction: only what was said is changed; `side` and `number` are the new owner and number."""

    kind: Literal["corrected"] = "corrected"
    side: Side | None = None
    number: int | None = None
    target: BowlName | Literal["jack"] | None = None
    """The bowl meant (or the jack); None for the last note."""
    confirmed: bool = False


class Question(Value):
    """Something the speaker wants to hear."""

    kind: Literal["question"] = "question"
    ask: Ask
    side: Side | None = None
    number: int | None = None
    on: Literal["left", "right"] | None = None
    """The side of the rink asked about."""


class EndStarted(Value):
    """The next end begins."""

    kind: Literal["end_started"] = "end_started"
    confirmed: bool = False


class EndFinished(Value):
    """The end is over, with the shots as agreed on the green, where they were said."""

    kind: Literal["end_finished"] = "end_finished"
    side: Side | None = None
    """The side that scored; None when not said or when nobody did."""
    shots: int | None = None
    """Shots agreed; 0 for no score, None when not said."""
    replayed: bool = False
    """True when the end is dead and played again."""
    confirmed: bool = False


class GameSet(Value):
    """How the game is played; only what was said is set."""

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


class Measured(Value):
    """A tape's figure, or which bowl of a pair the tape found nearer."""

    kind: Literal["measured"] = "measured"
    side: Side | None = None
    number: int | None = None
    gap_m: float | None = None
    unit: Unit | None = None
    hour: float | None = None
    """The measured hour on a clock face laid round the jack, where one was said beside the figure."""
    nearer_than: BowlName | None = None
    """Where no figure was said: the bowl that `side`, `number` is nearer than."""


class Setting(Value):
    """How the speaker wants to hear: kept for the session, changes no head."""

    kind: Literal["setting"] = "setting"
    name: Literal[
        "rate",
        "volume",
        "stop",
        "units",
        "hours",
        "form",
        "order",
        "sides",
        "stands",
        "call word",
        "player",
        "pace",
        "facing",
        "remark",
        "unasked",
        "cue",
        "keep",
        "eye",
        "mark",
        "before",
        "another game",
    ]
    value: str = ""
    """What it is set to, in words.

    rate: faster, slower, usual. volume: louder, softer. units: metres, feet, as called. hours:
    whole, halves, as called. form: head, nearest four, ours, theirs, changed, round the clock,
    short, terse, full, groups, in one go. order: distance first, hour first. sides: ours, yours.
    stands: mat, head. facing: jack, mat. pace: the length in metres, as a figure. call word and
    unasked: on, off. player: the name. remark: the words of the remark. stop, keep: nothing.
    eye: how the director judges, as JSON. mark: how far the mark is, metres, as a figure. before: what
    became of a step before play, and which: `shown: the ditch edge`.
    """
    side: Side | None = None
    number: int | None = None


class Walk(Value):
    """A step of the walk up to the head."""

    kind: Literal["walk"] = "walk"
    step: Literal["start", "next", "back", "again", "where", "here", "turn", "stop"]


class Aim(Value):
    """How far to move the mark the player aims at, for the last miss."""

    kind: Literal["aim"] = "aim"
    at_m: float | None = None
    """Distance of the mark in front of the mat line, metres; None for the setting's."""


class Declined(Value):
    """The answer no to an open yes-or-no question: nothing is filed."""

    kind: Literal["declined"] = "declined"


Note = Annotated[
    BowlRested
    | BowlMoved
    | JackSet
    | JackMoved
    | TakenBack
    | Corrected
    | Question
    | EndStarted
    | EndFinished
    | GameSet
    | Measured
    | Setting
    | Walk
    | Aim
    | Declined,
    Field(discriminator="kind"),
]


def says_all_of(note: Note, other: Note) -> bool:
    """True when a note says all that another of its kind does, and perhaps more."""
    whole, said = note.model_dump(), other.model_dump(exclude_defaults=True)
    return note.kind == other.kind and all(whole[name] == value for name, value in said.items())
