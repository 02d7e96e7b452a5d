"""The words that confirm a setting."""

from voicecoach.describe.distances import worked_out
from voicecoach.describe.values import Sentence
from voicecoach.phrasebook.wording import sentence, wording
from voicecoach.understand.values import Setting

_PACE_SD_M = 0.005
"""A pace is set to the centimetre."""


def no_pace() -> tuple[Sentence, ...]:
    """Why a pace isn't taken."""
    return (Sentence(text=sentence("setting.pace out of reach")),)


def confirm_setting(setting: Setting, at_its_end: bool) -> tuple[Sentence, ...]:
    """A few words that say what is set now; nothing at all for "stop", which asked for silence."""
    if setting.name == "stop":
        return ()
    if at_its_end:
        return (Sentence(text=sentence("setting.no further")),)
    if setting.name == "pace":
        return (Sentence(text=_pace(setting.value)),)
    key = f"setting.{setting.name} {setting.value}"
    if key not in wording():
        key = f"setting.{setting.name}"
    return (Sentence(text=sentence(key, value=setting.value)),)


def _pace(value: str) -> str:
    """The pace said back, so that seven metres are noticed where seventy centimetres were meant."""
    if not value:
        return sentence("setting.no pace")
    return sentence("setting.pace", value=worked_out(float(value), _PACE_SD_M, "metric"))
