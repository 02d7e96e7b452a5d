"""What every setting has: the base of their classes."""

from typing import Any, ClassVar, Literal

from pydantic import model_validator

from voicecoach.understand.notes.base import AnyNote

OnOff = Literal["on", "off"]


class AnySetting(AnyNote):
    """The base of all settings: kept for the session; most change no head."""

    sets_up = True
    is_a_link = False

    head_keeps: ClassVar[bool] = False
    """The head goes by it; all others are only about how a listener hears."""
    opens_a_journal: ClassVar[bool] = False
    """A journal may begin with it: the game is set up after it."""

    kind: Literal["setting"] = "setting"

    @model_validator(mode="before")
    @classmethod
    def _as_first_written(cls, data: Any) -> Any:
        """Journals of 2026 wrote a value, a side and a number for every setting, empty where it had none."""
        if not isinstance(data, dict):
            return data
        return {name: value for name, value in data.items() if name in cls.model_fields or value}
