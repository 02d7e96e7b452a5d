"""Notes that only want to hear something: a question, a step of the walk, the aim."""

from typing import Literal

from voicecoach.understand.notes.base import AnyNote
from voicecoach.understand.vocabulary import BowlName, Side

Topic = Literal[
    "head",
    "ours",
    "theirs",
    "nearest four",
    "changed",
    "holding",
    "count",
    "counts",
    "nearest",
    "bowl",
    "last",
    "short",
    "round the clock",
    "ditch",
    "score",
    "my turn",
    "jack",
    "behind",
    "next up",
    "bowls left",
    "end",
    "again",
    "go on",
    "next",
    "back",
    "game",
    "cautions",
    "picture",
    "remarks",
    "time",
    "battery",
    "second",
    "third",
    "margin",
    "measure",
    "nearest few",
    "touchers",
    "toucher",
    "at hour",
    "level",
    "side",
    "open",
    "apart",
    "jack moved",
    "ditch distance",
    "ends left",
    "leads next",
    "won",
    "mat",
    "help",
]
"""What can be asked about. How each is answered is one row of `describe/answers.py`."""


class Question(AnyNote):
    """Something the speaker wants to hear."""

    harmless = True
    is_a_link = False

    kind: Literal["question"] = "question"
    ask: Topic
    side: Side | None = None
    number: int | None = None
    on: Literal["left", "right"] | None = None
    """The side of the rink asked about."""
    hand: Literal["forehand", "backhand"] | None = None
    """The same, by the player's hand."""
    hour: float | None = None
    """The hour of the clock asked about, in (0, 12]."""
    other: BowlName | None = None
    """The second of two bowls, where it is asked how far apart they are."""
    count: int | None = None
    """How many of the nearest bowls."""


class Walk(AnyNote):
    """A step of the walk up to the head."""

    harmless = True
    is_a_link = False

    kind: Literal["walk"] = "walk"
    step: Literal["start", "next", "back", "again", "where", "here", "turn", "stop"]


class Aim(AnyNote):
    """How far to move the mark the player aims at, for the last miss."""

    harmless = is_answered = True
    is_a_link = False

    kind: Literal["aim"] = "aim"
    at_m: float | None = None
    """Distance of the mark in front of the mat line, metres; None for the setting's."""


AskingNote = Question | Walk | Aim
