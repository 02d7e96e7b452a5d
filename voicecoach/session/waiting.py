"""A note that waits for the answer to its question: put right, taken back, or left behind."""

from __future__ import annotations

from voicecoach import describe
from voicecoach.describe.values import Sentence
from voicecoach.head import merged
from voicecoach.session.talk import Talk
from voicecoach.understand.values import (
    BowlMoved,
    BowlName,
    BowlRested,
    Corrected,
    Declined,
    EndFinished,
    EndStarted,
    JackMoved,
    JackSet,
    Note,
    OpenQuestion,
    TakenBack,
)

_OTHERS = (BowlRested, BowlMoved, JackMoved, JackSet, EndStarted, EndFinished)
"""Notes after which nobody answers a question about another bowl any more."""


def about_what_waits(open_: OpenQuestion | None, note: Note) -> Note:
    """The note that is meant while a question is open.

    "No, half a metre" and "take that back" are about the note that was just said and asked about, not about
    the one filed before it: that one would be changed behind the speaker's back, and the new one lost.
    """
    if open_ is None:
        return note
    if isinstance(note, TakenBack):
        return Declined()
    if isinstance(note, Corrected) and note.target is None:
        return merged(open_.pending, note) or note
    return note


def left_behind(talk: Talk, note: Note) -> tuple[Sentence, ...]:
    """Names the bowl that was asked about and isn't filed, when another note is filed instead."""
    if talk.open is None or note in talk.open.choices or not isinstance(note, _OTHERS):
        return ()
    waits = talk.open.pending
    if not isinstance(waits, BowlRested) or waits.side is None or waits.number is None:
        return ()
    if isinstance(note, BowlRested | BowlMoved) and (note.side, note.number) == (waits.side, waits.number):
        return ()
    return describe.left_behind(BowlName(side=waits.side, number=waits.number), talk.manner.prefs)
