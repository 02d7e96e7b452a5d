"""The words that confirm a setting."""

from voicecoach.describe.values import Sentence
from voicecoach.phrasebook.wording import sentence, wording
from voicecoach.understand.values import Setting


def confirm_setting(setting: Setting, at_its_end: bool) -> tuple[Sentence, ...]:
    """A few words that say what is set now; nothing at all for "stop", which asked for silence."""
    if setting.name == "stop":
        return ()
    if at_its_end:
        return (Sentence(text=sentence("setting.no further")),)
    key = f"setting.{setting.name} {setting.value}"
    if key not in wording():
        key = f"setting.{setting.name}"
    return (Sentence(text=sentence(key, value=setting.value)),)
