"""Why the head refuses or asks back: a closed set of names, and the figures that each is about.

The head knows no sentence: `describe` has the words for every name, and a test keeps the two complete.
"""

from __future__ import annotations

from typing import Literal

from voicecoach.head.values.game import Score
from voicecoach.understand.values import BowlName, Format, Side
from voicecoach.value import Value

Refusal = Literal[
    "bowl dead",
    "bowl not called",
    "bowl or jack dead",
    "declined",
    "end goes on",
    "end not scored",
    "end over",
    "end over, score or next",
    "end scored already",
    "in the way",
    "jack dead",
    "jack length",
    "jack not moved",
    "jack placed by hand",
    "landmark is itself",
    "landmark not called",
    "landmark without a place",
    "mark behind the mat",
    "never called",
    "no bowl here",
    "no bowl to change",
    "no last note",
    "no miss",
    "no part to change",
    "no place",
    "no room beside it",
    "no room for followers",
    "no room in that order",
    "no room to measure",
    "no such bowl",
    "no such line",
    "no such pace",
    "nobody called",
    "not compared",
    "nothing timed",
    "not scored",
    "not set",
    "nothing to take back",
    "number under one",
    "score not said",
    "shots under none",
    "size of nothing",
    "spot unknown",
    "tape against tape",
    "tape too long",
    "too far",
    "too large",
]
"""What is wrong, and so what to do."""

Asked = Literal[
    "after a wrong bias",
    "another end",
    "bowl in the way of the jack",
    "breaches",
    "called already",
    "close count",
    "count early",
    "count early and close",
    "dead or live",
    "ditch or live",
    "bowl distance",
    "bowl hour",
    "bowl left or right",
    "distance from a bowl",
    "left or right of a bowl",
    "side of a bowl",
    "body in the way",
    "distance now",
    "how many shots",
    "instead or another",
    "its name",
    "jack length",
    "late toucher",
    "move distance",
    "move hour",
    "move left or right",
    "moved or corrected",
    "next end early",
    "no room",
    "one of these",
    "score a dead end",
    "tape figure",
    "too many bowls",
    "too many shots",
    "score differs",
    "which bowl",
    "which side over",
    "whose score",
    "whose shots",
]
"""What is asked back."""

AnswerWord = Literal[
    "ours",
    "theirs",
    "left",
    "right",
    "dead",
    "in the ditch",
    "live",
    "out of the rink",
    "moved",
    "corrected",
    "instead",
    "another bowl",
]
"""One way to answer a question that offers some."""

Answer = AnswerWord | BowlName | int
"""What one choice means; a figure is an hour where the hour is asked for, else a count."""

BreachName = Literal[
    "bowl size",
    "front ditch",
    "green length",
    "jack far",
    "jack short",
    "jack size",
    "jack near the ditch",
    "rear ditch",
    "rink width",
    "bowl outside",
    "bowl too short",
    "jack outside",
    "jack too short",
    "outside any rink",
    "past any ditch",
    "past the ditch",
    "touches in the ditch",
]
"""What a law doesn't allow, or what it makes a body dead for."""


class Breach(Value):
    """A figure or a place that a law does not allow."""

    name: BreachName
    law: str
    """The law's number."""
    figure: float | None = None
    """The figure that was called: metres; millimetres for a size."""
    bounds: tuple[float, float] | None = None
    """The least and the most that the law allows, in the same unit."""


class Figures(Value):
    """What a reason is about; only what it needs is given."""

    bowl: BowlName | None = None
    """The bowl it is about; for one in the way, None means the jack."""
    law: str | None = None
    count: int | None = None
    """Bowls that haven't been called, or bowls a side."""
    shots: int | None = None
    side: Side | None = None
    totals: tuple[Score, Score] | None = None
    """The score as added up, and as it was told."""
    format: Format | None = None
    breaches: tuple[Breach, ...] = ()
    missing: Literal["both", "mat", "green"] | None = None
    """What isn't set of that on which the spot for a dead jack hangs."""
