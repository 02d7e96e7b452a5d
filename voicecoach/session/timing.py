"""A bowl timed by the director: from "away" to "stopped", on the clock of the microphone."""

from __future__ import annotations

from voicecoach.hear.values import Heard
from voicecoach.understand.notes.line_settings import Timed
from voicecoach.understand.notes.settings import Cue
from voicecoach.understand.values import Note

WITHIN_S = 40.0
"""No bowl runs for so long: after that "stopped" is said of something else."""


def away_at(away_s: float | None, note: Note | None, heard: Heard) -> float | None:
    """When the bowl was said to be away, seconds on the audio clock, after this note; None when none is."""
    if isinstance(note, Cue):
        return heard.started_s
    return None if isinstance(note, Timed) else away_s


def is_timing(away_s: float | None, heard: Heard) -> bool:
    """True while a bowl is under way that may be timed."""
    return _since_away(away_s, heard) is not None


def timed(away_s: float | None, note: Note, heard: Heard) -> Note:
    """The note with its time: each word counts from where it begins, so that both are as late."""
    if not isinstance(note, Timed):
        return note
    return note.model_copy(update={"value": _since_away(away_s, heard)})


def _since_away(away_s: float | None, heard: Heard) -> float | None:
    """Seconds since the bowl was away; None where nobody knows, or where it was too long ago."""
    if away_s is None or heard.started_s is None:
        return None
    since = heard.started_s - away_s
    return round(since, 2) if 0 < since <= WITHIN_S else None
