"""A note that waits for the answer to its question: put right, taken back, or left behind."""

from __future__ import annotations

from voicecoach import describe
from voicecoach.describe.values import Sentences
from voicecoach.head import merged
from voicecoach.head.values import Refused
from voicecoach.session.talk import Talk
from voicecoach.understand.notes.bowls import name_said
from voicecoach.understand.values import (
    Corrected,
    Declined,
    EndFinished,
    EndStarted,
    GameSet,
    JackSet,
    Note,
    OpenQuestion,
    TakenBack,
)


def about_what_waits(open_: OpenQuestion | None, note: Note) -> Note:
    """The note that is meant while a question is open.

    "No, half a metre" and "take that back" are about the note that was just said and asked about, not about
    the one filed before it: that one would be changed behind the speaker's back, and the new one lost.
    """
    if open_ is None or note in open_.choices:
        return note
    if isinstance(note, TakenBack):
        return Declined()
    if isinstance(note, Corrected) and note.target is None:
        return merged(open_.pending, note) or note
    return note


def declined(open_: OpenQuestion) -> Refused:
    """What a plain no to the open question comes to, and what to say next."""
    waits = open_.pending
    if isinstance(waits, EndStarted):
        return Refused(why="end goes on")
    if isinstance(waits, EndFinished):
        return Refused(why="not scored")
    return Refused(why="not set" if isinstance(waits, GameSet | JackSet) else "declined")


def left_behind(talk: Talk, note: Note) -> Sentences:
    """Names the bowl that was asked about and isn't filed, when another note is filed instead."""
    if talk.open is None or note in talk.open.choices or not note.moves_on:
        return ()
    waits = talk.open.pending
    name = name_said(waits)
    if name is None or not waits.missed_if_left or name == name_said(note):
        return ()
    return describe.left_behind(name, talk.manner.prefs)
