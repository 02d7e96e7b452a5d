"""What the head answers where it files nothing: a question back, or a refusal."""

from __future__ import annotations

from voicecoach.head.values.reasons import Answer, Asked, Figures, Refusal
from voicecoach.understand.values import Note, Slot
from voicecoach.value import Value


class AskBack(Value):
    """A question back: nothing is filed until it is answered."""

    slot: Slot
    """What is in doubt."""
    asks: Asked
    figures: Figures = Figures()
    pending: Note
    """The note that waits."""
    choices: tuple[Note, ...] = ()
    """The whole notes offered; empty when any answer will do."""
    answers: tuple[Answer, ...] = ()
    """What each of `choices` means."""
    law: str | None = None
    """The number of the law that is the reason; several with commas."""


class Refused(Value):
    """A note that can't be carried out, and why."""

    why: Refusal
    figures: Figures = Figures()
