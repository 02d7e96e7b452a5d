"""What the programs reported, set against what was said."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from tests.bench.against.sounds import Mark, Recorded
from voicecoach.conversation import Conversation
from voicecoach.hear.values import Heard
from voicecoach.value import Value

UNDECIDED = ("dropped", "refused")
"""Outcomes of ours that file and answer nothing."""


class Decision(Value):
    """Something that a program decided."""

    at_s: float
    """When it was decided, on the stream's clock."""
    spoken_s: float | None
    """When the first sample of its confirmation could be played; None where it confirmed nothing."""
    decided: Any
    """The words; of this program the outcome and the note."""


class Report(Value):
    """What one program did."""

    ready_s: float
    """From the start of its process until it could take its first block."""
    ready_work_s: float
    """Processor time until then."""
    notes: dict[str, tuple[Decision, ...]]
    """By stream, what was decided in it."""
    memory_mb: float


@dataclass(frozen=True)
class Tally:
    """What came of the notes of one stream."""

    decisions_s: tuple[float, ...]
    """From the true end of each note to its decision."""
    spoken_s: tuple[float, ...]
    """From the true end of each note to the first sample of its confirmation."""
    notes: int
    right: int
    in_pieces: int
    """Notes of which a part was taken for the whole first."""
    chatter: int
    filed: int
    """Of the chatter, how much was taken for a note."""


def tally(lines: Sequence[Recorded], marks: Sequence[Mark], decisions: Sequence[Decision]) -> Tally:
    """Each note with what was decided before the next one began; its last decision counts."""
    until = [*(mark.began_s for mark in marks[1:]), float("inf")]
    parts = [
        [one for one in decisions if mark.began_s <= one.at_s < end_s]
        for mark, end_s in zip(marks, until, strict=True)
    ]
    meant = notes_of([[line.say] for line in lines])
    got = notes_of([[one.decided for one in part] for part in parts])
    notes = [at for at, line in enumerate(lines) if line.outcome != "dropped"]
    chatter = [at for at, line in enumerate(lines) if line.outcome == "dropped"]
    last = {at: parts[at][-1] for at in notes if parts[at]}
    return Tally(
        decisions_s=tuple(one.at_s - marks[at].ended_s for at, one in last.items()),
        spoken_s=tuple(one.spoken_s - marks[at].ended_s for at, one in last.items() if one.spoken_s),
        notes=len(notes),
        right=sum(got[at] == meant[at] for at in notes),
        in_pieces=sum(len(parts[at]) > 1 for at in notes),
        chatter=len(chatter),
        filed=sum(got[at] is not None for at in chatter),
    )


def notes_of(said: Sequence[Sequence[Any]]) -> list[str | None]:
    """The last note that each line made, as text; None where it made none.

    Words are read one after the other, as one conversation, so that nobody is better understood.
    """
    conversation = Conversation()
    return [_last([_note(one, conversation) for one in line]) for line in said]


def _note(said: Any, conversation: Conversation) -> str | None:
    if isinstance(said, dict):
        note = None if said["outcome"] in UNDECIDED else said["note"]
        return json.dumps(note) if note else None
    entry = conversation.hear(Heard(text=said))
    if entry.note is None or entry.outcome in UNDECIDED:
        return None
    return json.dumps(entry.note.model_dump(mode="json"))


def _last(notes: list[str | None]) -> str | None:
    return next((note for note in reversed(notes) if note), None)
