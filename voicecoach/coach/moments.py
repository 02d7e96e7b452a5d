"""A journal as the heads it passed through: one moment for each note that changed the head."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from voicecoach.describe import Preferences
from voicecoach.head.values import Event, Head, Play
from voicecoach.session.talk import Talk, step
from voicecoach.session.values import Entry
from voicecoach.understand.values import Note

_BEGINS = frozenset({"end_started", "end_finished"})
"""Kinds of note that begin a play of an end: the next one, or a dead one again."""


@dataclass(frozen=True)
class Moment:
    """The head right after one note."""

    number: int
    """Within its end, from 1; it goes on counting where a dead end is played again."""
    entry: Entry
    event: Event
    head: Head
    before: Head
    prefs: Preferences
    """How the listener wanted to hear it then."""
    play: int = 1
    """Of its end: 1, and one more each time the end was dead and played again."""
    stands: bool = True
    """False for a note that was taken back later."""
    asides: tuple[Entry, ...] = ()
    """What was said after it, before the next moment, and changed no head: remarks, questions, refusals."""

    @property
    def end(self) -> int:
        """The end it belongs to."""
        return self.head.end

    @property
    def note(self) -> Note:
        """The note, with the correction in it where a correction decided it again."""
        return self.event.redone or self.event.note


@dataclass(frozen=True)
class Section:
    """One play of one end: the moments in order, those taken back among them."""

    end: int
    play: int
    moments: tuple[Moment, ...]
    replayed: bool = False
    """True when it was dead, and the end played again."""

    @property
    def standing(self) -> tuple[Moment, ...]:
        """The moments that were not taken back; a taking back is none."""
        return tuple(moment for moment in self.moments if moment.stands and not moment.event.undoes)

    @property
    def last(self) -> Moment:
        """The moment in which it was left."""
        return (self.standing or self.moments)[-1]

    @property
    def agreed(self) -> tuple[int, int] | None:
        """Shots of ours and of theirs in this end, as agreed; None where it wasn't finished."""
        head = self.last.head
        if not head.finished:
            return None
        brought = next((each for each in head.score.by_end if each.end == head.end), None)
        if brought is not None:
            return (
                brought.shots if brought.side == "ours" else 0,
                brought.shots if brought.side == "theirs" else 0,
            )
        begun = self.moments[0].before.score
        return head.score.ours - begun.ours, head.score.theirs - begun.theirs


def moments(entries: Iterable[Entry]) -> tuple[Moment, ...]:
    """Every moment, in order. What was taken back was a moment too, and so is the taking back."""
    talk = Talk()
    counts: Counter[int] = Counter()
    found: list[Moment] = []
    asides: list[list[Entry]] = []
    for entry in entries:
        before = talk.play.head
        talk = step(talk, entry)
        head = talk.play.head
        if entry.event is None or _lies_as_before(head, before):
            if asides:
                asides[-1].append(entry)
            continue
        counts[head.end] += 1
        play = _plays(talk.play)
        found.append(Moment(counts[head.end], entry, entry.event, head, before, talk.manner.prefs, play=play))
        asides.append([])
    whole = [
        replace(moment, asides=tuple(said)) if said else moment
        for moment, said in zip(found, asides, strict=True)
    ]
    return _marked(whole, talk.play)


def _lies_as_before(head: Head, before: Head) -> bool:
    """Whether a note changed nothing but what is remembered of the end, if that."""
    return head == (before if head.kept == before.kept else before.model_copy(update={"kept": head.kept}))


def sections(found: Sequence[Moment]) -> tuple[Section, ...]:
    """The plays of the ends, in order; what was begun and taken back goes with what it stood after."""
    stand = {(moment.end, moment.play) for moment in found if moment.stands and not moment.event.undoes}
    keyed: list[tuple[tuple[int, int], Moment]] = []
    key: tuple[int, int] | None = None
    for moment in found:
        own = (moment.end, moment.play)
        key = own if own in stand or key is None else key
        keyed.append((key, moment))
    # An end that was begun, taken back and begun again is one end.
    keyed.sort(key=lambda pair: pair[0])
    parts = [
        (key, tuple(moment for _, moment in part)) for key, part in groupby(keyed, key=lambda pair: pair[0])
    ]
    plays = {end: play for (end, play), _ in parts}
    return tuple(Section(end, play, part, replayed=play < plays[end]) for (end, play), part in parts)


def _plays(play: Play) -> int:
    """Which play of its end this is, by the notes that lead to it."""
    count, link = 1, play
    while link.before is not None and link.before.head.end == play.head.end:
        before = link.before.head
        begun = link.note is not None and link.note.kind in _BEGINS and not link.head.finished
        count += begun and bool(before.bowls or before.jack.state == "dead")
        link = link.before
    return count


def _marked(found: Sequence[Moment], last: Play) -> tuple[Moment, ...]:
    """The moments, those that were taken back marked."""
    # Notes are told apart by identity: the same words may have been said twice.
    standing = {id(note) for note in _chain(last)}
    return tuple(
        moment if _leaves_no_link(moment) or id(moment.note) in standing else replace(moment, stands=False)
        for moment in found
    )


def _chain(last: Play) -> Iterator[Note | None]:
    play: Play | None = last
    while play is not None:
        yield play.note
        play = play.before


def _leaves_no_link(moment: Moment) -> bool:
    return moment.event.undoes or not moment.note.is_a_link
