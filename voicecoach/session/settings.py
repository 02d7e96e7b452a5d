"""How a listener wants to hear: what a setting changes."""

from __future__ import annotations

from voicecoach.describe import Preferences
from voicecoach.understand.values import Setting
from voicecoach.value import Value

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
    call_word: bool = False
    """True when only what begins with the call word is taken as a note."""
    placed: bool = False
    """True to hear each bowl from where it lies, in both ears."""
    player: str | None = None
    """What the player is called."""


_STEPS = {"faster": ("rate", 1), "slower": ("rate", -1), "louder": ("volume", 1), "softer": ("volume", -1)}
_FORMS: dict[str, dict[str, object]] = {
    "terse": {"terse": True},
    "full": {"terse": False, "form": "head"},
    "groups": {"groups": True},
    "in one go": {"groups": False},
}


def set_to(manner: Manner, setting: Setting) -> Manner:
    """The manner after a setting; settings that concern the head leave it as it is."""
    name, value = setting.name, setting.value
    if name in ("rate", "volume"):
        return _stepped(manner, name, value)
    if name == "call word":
        return manner.model_copy(update={"call_word": value == "on"})
    if name == "form" and value in ("in stereo", "in mono"):
        return manner.model_copy(update={"placed": value == "in stereo"})
    if name == "player":
        return manner.model_copy(update={"player": value or None})
    changes = _preference(name, value)
    return manner.model_copy(update={"prefs": manner.prefs.model_copy(update=changes)})


PACE_M = (0.2, 1.5)
"""The shortest and the longest pace that is taken, metres (common practice, no source)."""


def is_a_pace(setting: Setting) -> bool:
    """False for a pace that nobody has: it was misheard, or the unit is wrong."""
    if setting.name != "pace" or not setting.value:
        return True
    return PACE_M[0] <= float(setting.value) <= PACE_M[1]


def at_its_end(manner: Manner, setting: Setting) -> bool:
    """True when a step further can't be taken."""
    return setting.name in ("rate", "volume") and set_to(manner, setting) == manner


def _stepped(manner: Manner, name: str, value: str) -> Manner:
    if value not in _STEPS:
        return manner.model_copy(update={name: 0})
    low, high = (SLOWEST, FASTEST) if name == "rate" else (SOFTEST, LOUDEST)
    now: int = getattr(manner, name)
    return manner.model_copy(update={name: min(high, max(low, now + _STEPS[value][1]))})


def _preference(name: str, value: str) -> dict[str, object]:
    if name == "form":
        return _FORMS.get(value, {"form": value, "terse": False})
    if name == "order":
        return {"hour_first": value == "hour first"}
    if name == "pace":
        return {"pace_m": float(value) if value else None}
    if name == "unasked":
        return {"unasked": value == "on"}
    return {name: value} if name in ("units", "hours", "sides", "facing") else {}
