"""The words that confirm a setting."""

from voicecoach.describe.distances import worked_out
from voicecoach.describe.line_settings import bowling_words
from voicecoach.describe.values import Preferences, Sentence, Sentences
from voicecoach.head.values import Event
from voicecoach.phrasebook.wording import sentence, wording
from voicecoach.understand.notes import settings
from voicecoach.understand.notes.line_settings import GreenPace, LineTold, OnHand, Timed
from voicecoach.understand.notes.settings import Setting
from voicecoach.understand.values import Side

_PACE_SD_M = 0.005
"""A pace is set to the centimetre."""


def no_pace() -> Sentences:
    """Why a pace isn't taken."""
    return (Sentence(text=sentence("setting.pace out of reach")),)


def may_sound_be_kept() -> str:
    """The question whether the sound of what is said may be kept."""
    return sentence("sound.may it be kept")


def which_to_delete(*, or_a_note: bool) -> str:
    """The question which of it is deleted, or whether a note was meant to be taken back."""
    return sentence("sound.note or sound" if or_a_note else "sound.which")


def no_sound() -> Sentences:
    """What is said where no sound is kept."""
    return (Sentence(text=sentence("setting.sound off")),)


def your_means(side: Side) -> Sentences:
    """Whose bowls "your" means, where that was learned, or changed, and is kept in the pair's profile."""
    return (Sentence(text=sentence(f"setting.your {side}")), *kept_for_next_time())


def kept_for_next_time() -> Sentences:
    """What is said of something that the pair's profile holds now."""
    return (Sentence(text=sentence("kept for next time")),)


def sound_not_kept(*, asked_for: bool) -> Sentences:
    """Why nothing about sound can be done: it was never kept, or the session was not begun for it."""
    return (Sentence(text=sentence("sound.none kept" if asked_for else "sound.not asked for")),)


def nothing_deleted() -> Sentences:
    """What is said where nothing that was kept is deleted."""
    return (Sentence(text=sentence("sound.nothing deleted")),)


def confirm_setting(setting: Setting, at_its_end: bool) -> Sentences:
    """A few words that say what is set now; nothing at all for "stop", which asked for silence.

    They are the wording's own for `NAME VALUE`, or else for the name, with the value in them.
    """
    if isinstance(setting, settings.BeSilent):
        return ()
    if at_its_end:
        return (Sentence(text=sentence("setting.no further")),)
    if isinstance(setting, settings.PaceSet):
        return (Sentence(text=_pace(setting.value)),)
    value = getattr(setting, "value", "")
    key = f"setting.{setting.name} {value}"
    if key not in wording():
        key = f"setting.{setting.name}"
    return (Sentence(text=sentence(key, value=str(value))),)


def confirm_set(event: Event, setting: Setting, prefs: Preferences) -> Sentences:
    """A few words that say what the head goes by now."""
    if event.game is not None and isinstance(setting, GreenPace | Timed | LineTold | OnHand):
        return (Sentence(text=bowling_words(event.game, setting, prefs)),)
    return confirm_setting(setting, at_its_end=False)


def _pace(pace_m: float | None) -> str:
    """The pace said back, so that seven metres are noticed where seventy centimetres were meant."""
    if pace_m is None:
        return sentence("setting.no pace")
    return sentence("setting.pace", value=worked_out(pace_m, _PACE_SD_M, "metric"))
