"""What an entry is about, where more than the turn has to know."""

from voicecoach.session.values import Entry
from voicecoach.understand.notes.settings import AllForToday, AnotherGame, Form, SoundKept
from voicecoach.understand.values import Question


def is_another_game(entry: Entry) -> bool:
    """True for the entry that begins another game, or asks for one."""
    return entry.outcome == "noted" and isinstance(entry.note, AnotherGame)


def wants_stereo(entry: Entry) -> bool:
    """True where sounds are asked for that lie left and right."""
    note = entry.note
    if entry.outcome == "answered":
        return isinstance(note, Question) and note.ask == "picture"
    return entry.outcome == "noted" and isinstance(note, Form) and note.value == "in stereo"


def is_the_end(entry: Entry) -> bool:
    """True for the entry that ends the session, or asks to."""
    return entry.outcome == "noted" and isinstance(entry.note, AllForToday)


def is_about_sound(entry: Entry) -> bool:
    """True for the entry that keeps or deletes sound, or asks about it."""
    asked = entry.open.pending if entry.outcome == "asked" and entry.open else None
    return isinstance(entry.note or asked, SoundKept)


def concerns_play(entry: Entry) -> bool:
    """True for a bowl, the jack or an end, but not for how the game is played or heard."""
    return entry.event is not None and entry.note is not None and not entry.note.sets_up
