"""A journal as the heads it passed through: one moment for each note that changed the head."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace

from voicecoach.describe import Preferences
from voicecoach.head.values import Event, Head, Play
from voicecoach.session.talk import Remark, Talk, step
from voicecoach.session.values import Entry
from voicecoach.understand.values import Note


@dataclass(frozen=True)
class Moment:
    """The head right after one note."""

    number: int
    """Within its end, from 1."""
    entry: Entry
    event: Event
    head: Head
    before: Head
    prefs: Preferences
    """How the listener wanted to hear it then."""
    stands: bool = True
    """False for a note that was taken back later."""
    remarks: tuple[Remark, ...] = ()
    """The end's remarks so far, and those made before the next moment."""

    @property
    def end(self) -> int:
        """The end it belongs to."""
        return self.head.end

    @property
    def note(self) -> Note:
        """The note, with the correction in it where a correction decided it again."""
        return self.event.redone or self.event.note


def moments(entries: Iterable[Entry]) -> tuple[Moment, ...]:
    """Every moment, in order. What was taken back was a moment too, and so is the taking back."""
    talk = Talk()
    counts: Counter[int] = Counter()
    found = []
    for entry in entries:
        before = talk.play.head
        talk = step(talk, entry)
        head = talk.play.head
        if entry.event is not None and head != before:
            counts[head.end] += 1
            found.append(Moment(counts[head.end], entry, entry.event, head, before, talk.manner.prefs))
        if found and found[-1].end == head.end:
            found[-1] = replace(found[-1], remarks=talk.remarks)
    return _marked(found, talk.play)


def _marked(found: list[Moment], last: Play) -> tuple[Moment, ...]:
    """The moments, those that were taken back marked."""
    # Notes are told apart by identity: the same words may have been said twice.
    standing = set()
    play: Play | None = last
    while play is not None:
        standing.add(id(play.note))
        play = play.before
    return tuple(
        moment if _leaves_no_link(moment) or id(moment.note) in standing else replace(moment, stands=False)
        for moment in found
    )


def _leaves_no_link(moment: Moment) -> bool:
    return moment.event.undoes or moment.note.kind == "setting"
