"""The session as it stood at any moment: the same fold that built it live."""

from collections.abc import Sequence

from voicecoach.errors import Problem
from voicecoach.session.talk import Talk, step
from voicecoach.session.values import Entry


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
