"""How a listener wants to hear: what a setting changes."""

from __future__ import annotations

from voicecoach.describe import Preferences
from voicecoach.understand.notes import line_settings, settings
from voicecoach.understand.notes.settings import Setting
from voicecoach.value import Value, assert_never

FASTEST, SLOWEST = 5, -5
LOUDEST, SOFTEST = 4, -6
"""Steps either way; what a step is worth is the voice's affair, and so is the ceiling of loudness."""


class Manner(Value):
    """Everything a listener has set, remembered through the session."""

    prefs: Preferences = Preferences()
    rate: int = 0
    """Steps faster than usual (slower when negative)."""
    volume: int = 0
    """Steps louder than usual (softer when negative)."""
    voice: str | None = None
    """The voice that speaks, as `VoiceSet` has it; None for the usual one."""
    call_word: bool = False
    """True when only what begins with the call word is taken as a note."""
    placed: bool = False
    """True to hear each bowl from where it lies, in both ears."""
    sound: bool = False
    """True while the sound of what is said is kept."""
    player: str | None = None
    """What the player is called."""


_STEPS = {"faster": 1, "slower": -1, "louder": 1, "softer": -1}
_FORMS: dict[str, dict[str, object]] = {
    "terse": {"terse": True},
    "full": {"terse": False, "form": "head"},
    "groups": {"groups": True},
    "in one go": {"groups": False},
}


def set_to(manner: Manner, setting: Setting) -> Manner:  # noqa: C901, PLR0911, PLR0912 - one line each
    """The manner after a setting; one that concerns the head, or nothing that lasts, leaves it as it is."""
    match setting:
        case settings.Rate():
            return manner.model_copy(update={"rate": _step(manner.rate, setting.value, SLOWEST, FASTEST)})
        case settings.Volume():
            return manner.model_copy(update={"volume": _step(manner.volume, setting.value, SOFTEST, LOUDEST)})
        case settings.VoiceSet():
            another = setting.value == "another"
            return manner.model_copy(update={"voice": _next(manner.voice) if another else setting.value})
        case settings.CallWord():
            return manner.model_copy(update={"call_word": setting.value == "on"})
        case settings.Player():
            return manner.model_copy(update={"player": setting.value or None})
        case settings.Form():
            if setting.value in ("in stereo", "in mono"):
                return manner.model_copy(update={"placed": setting.value == "in stereo"})
            return _preferring(manner, **_FORMS.get(setting.value, {"form": setting.value, "terse": False}))
        case settings.Units():
            return _preferring(manner, units=setting.value)
        case settings.Hours():
            return _preferring(manner, hours=setting.value)
        case settings.PlaceOrder():
            return _preferring(manner, hour_first=setting.value == "hour first")
        case settings.Sides():
            return _preferring(manner, sides=setting.value)
        case settings.PaceSet():
            return _preferring(manner, pace_m=setting.value)
        case settings.Facing():
            return _preferring(manner, facing=setting.value)
        case settings.Unasked():
            return _preferring(manner, unasked=setting.value == "on")
        case line_settings.HandsTold():
            return _preferring(manner, hands=setting.value == "on")
        case settings.SoundKept():
            on_off = setting.value in ("on", "off")
            return manner.model_copy(update={"sound": setting.value == "on"}) if on_off else manner
        case settings.Stands() | settings.EyeTold() | settings.MarkSet() | settings.Remarked():
            return manner  # the head keeps these
        case (
            line_settings.GreenPace()
            | line_settings.Timed()
            | line_settings.LineTold()
            | line_settings.OnHand()
        ):
            return manner  # and these
        case settings.YourMeans():
            return manner  # the talk keeps it, with what it learns by itself
        case settings.BeSilent() | settings.Cue() | settings.Keep():
            return manner  # done at once, or not at all
        case settings.BeforePlay() | settings.AnotherGame() | settings.AllForToday():
            return manner  # about the journal
        case _:
            return assert_never(setting)


def _preferring(manner: Manner, **changes: object) -> Manner:
    return manner.model_copy(update={"prefs": manner.prefs.model_copy(update=changes)})


def _step(now: int, word: str, low: int, high: int) -> int:
    """A step on in the word's direction, as far as it goes; none from the usual for "usual"."""
    return min(high, max(low, now + _STEPS[word])) if word in _STEPS else 0


def _next(voice: str | None) -> str:
    """The voice after this one; the first is the usual one."""
    at = settings.VOICES.index(voice) if voice in settings.VOICES else 0 if voice is None else -1
    return settings.VOICES[(at + 1) % len(settings.VOICES)]


PACE_M = (0.2, 1.5)
"""The shortest and the longest pace that is taken, metres (common practice, no source)."""


def is_a_pace(setting: Setting) -> bool:
    """False for a pace that nobody has: it was misheard, or the unit is wrong."""
    if not isinstance(setting, settings.PaceSet) or setting.value is None:
        return True
    return PACE_M[0] <= setting.value <= PACE_M[1]


def at_its_end(manner: Manner, setting: Setting) -> bool:
    """True when a step further can't be taken."""
    return isinstance(setting, settings.Rate | settings.Volume) and set_to(manner, setting) == manner
