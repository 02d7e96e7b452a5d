"""How a turn is printed: plain lines that a screen reader reads in order, or one JSON object."""

from voicecoach import kept_book
from voicecoach.head.values import Head, Picture
from voicecoach.printed import plain_json, put
from voicecoach.session.values import Entry, Outcome
from voicecoach.session.view import json_line, turn_line

LABELS: dict[Outcome, str] = {
    "noted": "Noted",
    "asked": "Asked",
    "answered": "Answered",
    "refused": "Refused",
    "dropped": "Dropped",
}


def show(entry: Entry, picture: Picture, *, json: bool) -> None:
    """Print one turn on standard output and flush it."""
    put(plain_json(json_line(turn_line(entry, picture))) if json else "\n".join(_lines(entry)))


def tell_on_the_side(message: str) -> None:
    """Print a message that is not part of the output, on standard error."""
    put(message, err=True)


def tell_if_empty(head: Head) -> None:
    """Say where to look when the last end has begun and nothing has been called in it."""
    if head.end > 1 and not head.bowls:
        tell_on_the_side(f"End {head.end} has no bowls yet. For the end before it: --end {head.end - 1}.")


def _lines(entry: Entry) -> list[str]:
    """What was heard, if anything was, and what came of it."""
    heard = " ".join(entry.heard.text.split()).replace("[unk]", "...")
    words = kept_book.load().spelling.written(heard)
    lines = [f"Heard: {words}"] if words else []
    spoken = " ".join(sentence.text for sentence in entry.say)
    if entry.outcome == "dropped":
        return [*lines, "Dropped: that was not a note."]
    return [*lines, f"{LABELS[entry.outcome]}. {spoken}".rstrip()]
