"""What was heard beside what was filed, turn by turn, as plain lines."""

from collections.abc import Iterable, Iterator

from voicecoach.commands.showing import LABELS
from voicecoach.session.talk import Talk, step
from voicecoach.session.values import Entry
from voicecoach.understand.values import Corrected, TakenBack


def turn_lines(entries: Iterable[Entry], since: int = 1) -> Iterator[str]:
    """Three lines for each turn from number `since` on, below a heading for each end.

    They say when it was, what was heard, and what came of it.
    """
    talk, end = Talk(), None
    for entry in entries:
        talk = step(talk, entry)
        if entry.number < since:
            continue
        if talk.play.head.end != end:
            end = talk.play.head.end
            yield f"End {end}"
        yield from one_turn(entry)


def one_turn(entry: Entry) -> Iterator[str]:
    """The lines of one turn."""
    yield f"Turn {entry.number}, at {entry.at[11:19]}, {entry.speaker}"
    yield f"  Heard: {_heard(entry)}"
    spoken = " ".join(sentence.text for sentence in entry.say)
    changes = " This changes an earlier note." if isinstance(entry.note, Corrected | TakenBack) else ""
    yield f"  {LABELS[entry.outcome]}. {spoken}{changes}".rstrip()


def _heard(entry: Entry) -> str:
    """The words of a turn, or why there are none."""
    words = " ".join(entry.heard.text.split())
    if words:
        return words
    return "talk that was not kept" if entry.outcome == "dropped" else "nothing; nobody had to speak for this"
