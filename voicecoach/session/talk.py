"""The state of a session, and the fold that rebuilds it from the journal's entries."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from voicecoach.describe import Walking
from voicecoach.describe.values import Sentences
from voicecoach.head import begin, evolve
from voicecoach.head.values import Picture, Play
from voicecoach.session.settings import Manner, set_to
from voicecoach.session.timing import away_at
from voicecoach.session.values import Entry
from voicecoach.session.your import Your
from voicecoach.understand.notes.any_setting import AnySetting
from voicecoach.understand.notes.settings import Remarked
from voicecoach.understand.values import BowlName, EndFinished, EndStarted, Maybe, OpenQuestion

IMPERIAL = frozenset({"ft", "in", "yd"})
"""Units of those who speak feet: a figure without its unit is no centimetres there."""
Remark = tuple[BowlName | None, str]
"""What a remark was about, and its words."""


@dataclass(frozen=True)
class ReadBack:
    """A read-back under way: what it consists of, and how far it has been spoken."""

    sentences: Sentences = ()
    spoken: int = 0
    """Sentences already spoken in full; "go on" begins at the next."""


@dataclass(frozen=True)
class Talk:
    """All that a turn needs to know of what went before."""

    play: Play = field(default_factory=begin)
    manner: Manner = field(default_factory=Manner)
    open: OpenQuestion | None = None
    asked_s: float | None = None
    """When the open question was asked, seconds on the audio clock."""
    filed_s: float | None = None
    """When the last filed note ended, seconds on the audio clock."""
    said: Sentences = ()
    """What was spoken last: "say it again" repeats it."""
    reading: ReadBack = field(default_factory=ReadBack)
    listened: Picture | None = None
    """The head as the listener last heard it read: "what changed" is told against it."""
    walking: Walking | None = None
    """How far the walk has got; None when no walk is under way."""
    walked_s: float | None = None
    """When the last step of the walk was asked for, seconds on the audio clock."""
    away_s: float | None = None
    """When the bowl under way was said to be away, seconds on the audio clock; None when none is."""
    number: int = 0
    """The number of the last entry."""
    your: Your = field(default_factory=Your)
    """Whose "your" is."""
    dropped_s: float | None = None
    """When the last utterance ended, seconds on the audio clock, where nothing was made of it; else None."""
    unsure: tuple[Maybe, ...] = ()
    """What may have been meant by the last utterance, where it was asked about or to be said again."""
    refused: str | None = None
    """The words understood of a note that was refused just now; None where none was."""
    unsure_s: float | None = None
    """When that utterance ended, seconds on the audio clock."""

    @property
    def in_feet(self) -> bool:
        """True where feet are read, or were called last in this end."""
        if self.manner.prefs.units != "as called":
            return self.manner.prefs.units == "feet"
        called = (bowl.said.unit for bowl in reversed(self.play.head.bowls) if bowl.said)
        return next((unit for unit in called if unit), None) in IMPERIAL

    @property
    def remarks(self) -> tuple[Remark, ...]:
        """What was remarked in this end, in order."""
        kept = self.play.head.kept
        return tuple((each.bowl, each.note.value) for each in kept if isinstance(each.note, Remarked))


def step(talk: Talk, entry: Entry) -> Talk:
    """The talk after `entry`: live and in replay, the head changes here and nowhere else."""
    play = evolve(talk.play, entry.event) if entry.event else talk.play
    note = entry.note
    manner = set_to(talk.manner, note) if isinstance(note, AnySetting) else talk.manner
    new_end = isinstance(note, EndStarted | EndFinished) and entry.outcome == "noted"
    return replace(
        talk,
        play=play,
        manner=manner,
        open=entry.open,
        said=entry.say or talk.said,
        away_s=away_at(talk.away_s, note, entry.heard),
        number=entry.number,
        your=talk.your.after(entry, asked=talk.open is not None),
        dropped_s=entry.heard.ended_s if entry.outcome == "dropped" else None,
        filed_s=entry.heard.ended_s if entry.outcome == "noted" else talk.filed_s,
        walking=None if new_end else talk.walking,
        listened=None if isinstance(note, EndStarted) and entry.outcome == "noted" else talk.listened,
    )


def resume(entries: Iterable[Entry]) -> Talk:
    """The talk as it stood after the last of `entries`.

    Times on the audio clock belong to the run that wrote them, so none is carried over; an
    open question isn't either: whoever asked it has long stopped waiting.
    """
    talk = Talk()
    for entry in entries:
        talk = step(talk, entry)
    manner = talk.manner.model_copy(update={"sound": False})  # each session asks for it anew
    return replace(talk, manner=manner, open=None, asked_s=None, filed_s=None, walked_s=None, away_s=None)
