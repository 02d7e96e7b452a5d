"""One turn of the talk between a speaker and the program: what the journal keeps."""

from typing import Literal

from voicecoach.describe.values import Sentences
from voicecoach.head.values import Event
from voicecoach.hear.values import Heard
from voicecoach.understand.values import Note, OpenQuestion
from voicecoach.value import Value

Outcome = Literal["noted", "asked", "answered", "refused", "dropped"]
Speaker = Literal["director", "player"]


class Entry(Value):
    """One utterance and what came of it. A lapsed question is an entry too, with no words heard."""

    number: int
    """1 for the journal's first entry, one more for each after it."""
    at: str
    """When it was taken, ISO 8601 with the offset from UTC."""
    speaker: Speaker = "director"
    heard: Heard
    outcome: Outcome
    note: Note | None = None
    """What was meant: for noted and answered outcomes only."""
    event: Event | None = None
    """What it did to the head; None when it did nothing."""
    open: OpenQuestion | None = None
    """The question that is open after it."""
    say: Sentences = ()
    """What was spoken to whoever spoke."""
    say_to_player: Sentences = ()
    """What the player is told unasked."""


def without_private_talk(entry: Entry) -> Entry:
    """The entry as it may be kept: talk between people that was dropped leaves no words behind."""
    if entry.outcome != "dropped":
        return entry
    nothing = entry.heard.model_copy(update={"text": "", "words": (), "readings": ()})
    return entry.model_copy(update={"heard": nothing})
