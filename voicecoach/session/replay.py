"""The session as it stood at any moment: the same fold that built it live."""

from collections.abc import Sequence

from voicecoach.errors import Problem
from voicecoach.hear.values import Heard
from voicecoach.session.talk import Talk, step
from voicecoach.session.values import Entry
from voicecoach.session.your import your_means
from voicecoach.understand.notes.base import AnyNote
from voicecoach.understand.notes.line_settings import GreenPace, LineTold, OnHand
from voicecoach.understand.notes.settings import Stands, YourMeans
from voicecoach.understand.values import EndStarted, GameSet, Side

LEADS: dict[Side, str] = {"ours": "we lead", "theirs": "they lead"}
"""Who leads, as it is said."""


def moment(entries: Sequence[Entry], *, end: int | None = None, turn: int | None = None) -> Talk:
    """The talk right after `turn`, or after the last entry of `end`, or after the last entry of all.

    Raises:
        Problem: The journal has no such end or turn.
    """
    talk, found = Talk(), None
    for entry in entries:
        talk = step(talk, entry)
        if _matches(talk, entry, end, turn):
            found = talk
    if found is None and (end is not None or turn is not None):
        raise Problem(_missing(talk, len(entries), end, turn))
    return found or talk


def up_to(entries: Sequence[Entry], talk: Talk) -> tuple[Entry, ...]:
    """The entries that led to `talk`."""
    return tuple(entry for entry in entries if entry.number <= talk.number)


def first_of_end(entries: Sequence[Entry], end: int) -> int:
    """The number of the entry with which an end begins; of a dead end played again, its first play.

    Raises:
        Problem: The journal has no such end.
    """
    talk = Talk()
    for entry in entries:
        talk = step(talk, entry)
        if talk.play.head.end == end:
            return entry.number
    raise Problem(_missing(talk, len(entries), end, None))


def end_under_way(entries: Sequence[Entry]) -> tuple[Entry, ...]:
    """The entries of the last end, and before them what it goes by: they can be told again alone.

    It goes by the game, by where the caller stands, by the green's pace and the player's lines, by whose
    "your" is, and by who leads: that takes the place of "next end".
    """
    begun = [at for at, entry in enumerate(entries) if _noted(entry, EndStarted)]
    if not begun:
        return tuple(entries)
    first = begun[-1]
    talk = moment(entries[: first + 1])
    lead, your = talk.play.head.lead, talk.your.side
    leads = [entries[first].model_copy(update={"heard": Heard(text=LEADS[lead])})] if lead else []
    if your is not None:
        means = {"heard": Heard(text=your_means(your)), "note": YourMeans(value=your), "event": None}
        leads.append(entries[first].model_copy(update=means))
    return (*(entry for entry in entries[:first] if _goes_on(entry)), *leads, *entries[first + 1 :])


def _goes_on(entry: Entry) -> bool:
    """True for what holds in later ends, too."""
    return any(_noted(entry, kind) for kind in (GameSet, Stands, GreenPace, LineTold, OnHand))


def _noted(entry: Entry, kind: type[AnyNote]) -> bool:
    return entry.outcome == "noted" and isinstance(entry.note, kind)


def _matches(talk: Talk, entry: Entry, end: int | None, turn: int | None) -> bool:
    return (turn is None or entry.number == turn) and (end is None or talk.play.head.end == end)


def _missing(last: Talk, entries: int, end: int | None, turn: int | None) -> str:
    wanted = " and ".join(
        f"{name} {value}" for name, value in (("end", end), ("turn", turn)) if value is not None
    )
    return (
        f"The journal has no {wanted}: it holds {entries} turns and reaches end {last.play.head.end}. "
        "Choose one of those."
    )
