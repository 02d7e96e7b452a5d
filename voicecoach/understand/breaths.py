"""A correction that comes in a breath of its own, after a note that wasn't understood."""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol

from voicecoach.hear.values import Heard
from voicecoach.understand.values import Corrected, Expected, Note, Ranked, Unclear, Where


class Reader(Protocol):
    """What is needed of the stage's front door."""

    def read(self, heard: Heard, expected: Expected) -> Ranked | Unclear:
        """The meanings of one utterance."""

    def understood(self, text: str, expected: Expected) -> str | None:
        """The words of the pieces of a line that is no note; None where it says nothing of where."""

    def without_fix(self, text: str, expected: Expected) -> str:
        """A line without the "I mean" or "no" that it begins with."""

    def again(self) -> Unclear:
        """Asks for the whole note once more."""


def read_after(reader: Reader, kept: str | None, heard: Heard, expected: Expected) -> Ranked | Unclear:
    """Read an utterance; a correction is about the note just refused, and never about the one filed before.

    Args:
        reader: What reads it.
        kept: The pieces that were understood of a note refused just before, in words; None where none was.
        heard: What was said.
        expected: What is expected.
    """
    read = reader.read(heard, expected)
    if kept is None or expected.open or not _puts_right_the_last(read):
        return read
    if kept:
        joined = reader.read(_each(heard, lambda text: f"{kept} {text}"), expected)
        if _is_a_place(joined):
            return joined
    alone = reader.read(_each(heard, lambda text: reader.without_fix(text, expected)), expected)
    return alone if _is_a_place(alone) else reader.again()


def refused(reader: Reader, heard: Heard, expected: Expected) -> str | None:
    """What to keep of a note that was refused: the pieces of the first reading that has any of where."""
    texts = [heard.text, *(reading.text for reading in heard.readings)]
    found = (reader.understood(text, expected) for text in texts)
    return next((kept for kept in found if kept is not None), None)


def _puts_right_the_last(read: Ranked | Unclear) -> bool:
    return any(
        isinstance(note, Corrected) and note.target is None and not note.swapped for note in _notes(read)
    )


def _is_a_place(read: Ranked | Unclear) -> bool:
    """True for a new note about where something lies, whole or asked about."""
    return any(isinstance(note, Where) and not isinstance(note, Corrected) for note in _notes(read))


def _each(heard: Heard, change: Callable[[str], str]) -> Heard:
    """The same utterance with other words; how long they took isn't known then."""
    readings = tuple(one.model_copy(update={"text": change(one.text)}) for one in heard.readings)
    return heard.model_copy(update={"text": change(heard.text), "readings": readings, "started_s": None})


def _notes(read: Ranked | Unclear) -> tuple[Note, ...]:
    """The likeliest note, or the one that is asked about."""
    if isinstance(read, Ranked):
        return read.notes[:1]
    return (read.doubt.pending,) if read.doubt else ()
