"""Settings: how the speaker wants to hear, and where and who the caller is. One class for each.

All are of the kind `setting` and are told apart by their `name`. What one changes is a row of
`session/settings.py`; what is said of it is `setting.NAME VALUE` in the phrase book's wording.
"""

from typing import Annotated, Any, Literal

from pydantic import Field, field_validator

from voicecoach.understand.notes.any_setting import AnySetting, OnOff
from voicecoach.understand.notes.eye import Eye
from voicecoach.understand.notes.line_settings import GreenPace, HandsTold, LineTold, OnHand, Timed
from voicecoach.understand.vocabulary import Side


class Rate(AnySetting):
    """How fast the voice speaks, a step at a time."""

    name: Literal["rate"] = "rate"
    value: Literal["faster", "slower", "usual"]


class Volume(AnySetting):
    """How loud the voice is, a step at a time."""

    name: Literal["volume"] = "volume"
    value: Literal["louder", "softer", "usual"]


VOICES = ("american", "british", "scottish", "received", "lancaster", "midlands", "caribbean")
"""Voices that come with the program, in the order in which "another voice" goes through them."""


class VoiceSet(AnySetting):
    """Which voice speaks: one of `VOICES`, `natural`, or a system's own; `another` is the next."""

    name: Literal["voice"] = "voice"
    value: Annotated[str, Field(min_length=1, max_length=200)]


class BeSilent(AnySetting):
    """The voice falls silent: nothing is set."""

    harmless = True

    name: Literal["stop"] = "stop"


class Units(AnySetting):
    """Units to hear."""

    name: Literal["units"] = "units"
    value: Literal["metres", "feet", "as called"]


class Hours(AnySetting):
    """Whole or half hours."""

    name: Literal["hours"] = "hours"
    value: Literal["whole", "halves", "as called"]


class Form(AnySetting):
    """What is heard when the head is asked for, and how it is read."""

    name: Literal["form"] = "form"
    value: Literal[
        "head",
        "nearest four",
        "ours",
        "theirs",
        "changed",
        "round the clock",
        "short",
        "terse",
        "full",
        "groups",
        "in one go",
        "in stereo",
        "in mono",
    ]


class PlaceOrder(AnySetting):
    """What comes first in the place of a bowl."""

    name: Literal["order"] = "order"
    value: Literal["distance first", "hour first"]


class Sides(AnySetting):
    """Words for the sides."""

    name: Literal["sides"] = "sides"
    value: Literal["ours", "yours"]


class Stands(AnySetting):
    """Where the caller stands."""

    head_keeps = True

    name: Literal["stands"] = "stands"
    value: Literal["mat", "head"]


class CallWord(AnySetting):
    """Whether only what begins with the call word is a note."""

    name: Literal["call word"] = "call word"
    value: OnOff


class Player(AnySetting):
    """What the player is called."""

    name: Literal["player"] = "player"
    value: str


class PaceSet(AnySetting):
    """The length of the player's pace, metres; None to hear metres in place of paces."""

    name: Literal["pace"] = "pace"
    value: float | None = None

    @field_validator("value", mode="before")
    @classmethod
    def _none_for_nothing(cls, value: Any) -> Any:
        return None if value == "" else value


class Facing(AnySetting):
    """Which way the listener faces."""

    name: Literal["facing"] = "facing"
    value: Literal["jack", "mat"]


class Remarked(AnySetting):
    """A remark in the speaker's own words, kept beside a bowl: their spelling may be torn."""

    harmless = head_keeps = kept_with_the_end = True

    name: Literal["remark"] = "remark"
    value: str = ""
    side: Side | None = None
    number: int | None = None


class Unasked(AnySetting):
    """Whether the player hears of every bowl unasked."""

    name: Literal["unasked"] = "unasked"
    value: OnOff


class Cue(AnySetting):
    """The bowl is on its way: whoever calls is behind the mat."""

    name: Literal["cue"] = "cue"
    value: Literal["away"]


class Keep(AnySetting):
    """The settings are kept for next time."""

    name: Literal["keep"] = "keep"


class SoundKept(AnySetting):
    """Whether the sound of what is said is kept, for a fair measurement, and which of it is deleted.

    It begins with a yes to the question and with nothing else; what to delete is asked.
    """

    name: Literal["sound"] = "sound"
    value: Literal["on", "off", "forget", "forget that", "forget last", "forget all"]
    confirmed: bool = False


class YourMeans(AnySetting):
    """Whose bowls this director's "your" means: the player's, or theirs, which the ear hears so."""

    name: Literal["your"] = "your"
    value: Literal["ours", "theirs", "unknown"]


class EyeTold(AnySetting):
    """How the director judges."""

    head_keeps = True

    name: Literal["eye"] = "eye"
    value: Eye

    @field_validator("value", mode="before")
    @classmethod
    def _as_first_written_too(cls, value: Any) -> Any:
        """Journals of 2026 wrote it as JSON in a text."""
        return Eye.model_validate_json(value) if isinstance(value, str) else value


class MarkSet(AnySetting):
    """How far the mark that the player aims at lies in front of the mat line, metres."""

    head_keeps = True

    name: Literal["mark"] = "mark"
    value: float


class BeforePlay(AnySetting):
    """What became of a step of the round before play, and which: `shown: the ditch edge`."""

    opens_a_journal = True

    name: Literal["before"] = "before"
    value: str


class AnotherGame(AnySetting):
    """Another game begins, in a journal of its own."""

    opens_a_journal = True

    name: Literal["another game"] = "another game"


class AllForToday(AnySetting):
    """The day is over: the journal is closed, and the program ends."""

    name: Literal["all for today"] = "all for today"


Setting = Annotated[
    Rate
    | Volume
    | VoiceSet
    | BeSilent
    | Units
    | Hours
    | Form
    | PlaceOrder
    | Sides
    | Stands
    | CallWord
    | Player
    | PaceSet
    | Facing
    | Remarked
    | Unasked
    | Cue
    | Keep
    | SoundKept
    | YourMeans
    | EyeTold
    | MarkSet
    | GreenPace
    | Timed
    | LineTold
    | OnHand
    | HandsTold
    | BeforePlay
    | AnotherGame
    | AllForToday,
    Field(discriminator="name"),
]
