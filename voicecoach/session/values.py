"""One turn of the talk between a speaker and the program: what the journal keeps."""

from typing import Literal

from voicecoach.describe.values import Sentence
from voicecoach.head.values import Event
from voicecoach.hear.values import Heard
from voicecoach.understand.values import Note, OpenQuestion
from voicecoach.value import Value

Outcome = Literal["noted", "asked", "answered", "refused", "dropped"]


class Entry(Value):
    """One utterance and what came of it. A lapsed question is an entry too, with no words heard."""

    number: int
    """1 for the journal's first entry, one more for each after it."""
    at: str
    """When it was taken, ISO 8601 with the offset from UTC."""
    speaker: Literal["director", "player"] = "director"
    heard: Heard
    outcome: Outcome
    note: Note | None = None
    """What was meant: for noted and answered outcomes only."""
    event: Event | None = None
    """What it did to the head; None when it did nothing."""
    open: OpenQuestion | None = None
    """The question that is open after it."""
    say: tuple[Sentence, ...] = ()
    """What was spoken."""
