"""What was said beside the notes that change a head: remarks as they were worded, and what was asked back."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from voicecoach.coach.deliveries import Name
from voicecoach.coach.moments import Moment, Section
from voicecoach.session.values import Entry
from voicecoach.understand.notes.settings import Remarked
from voicecoach.understand.values import BowlName


@dataclass(frozen=True)
class Remark:
    """A remark, on a bowl or on the end."""

    on: BowlName | None
    words: str
    """As they were heard or typed, stops and all."""


def remarks(section: Section) -> tuple[Remark, ...]:
    """Every remark made in this play, in order."""
    return tuple(found for entry in _asides(section) if (found := _remark(entry)) is not None)


def remarks_on(section: Section) -> dict[Name, str]:
    """The remarks on each bowl, one after another."""
    found: dict[Name, list[str]] = {}
    for remark in remarks(section):
        if remark.on is not None:
            found.setdefault((remark.on.side, remark.on.number), []).append(remark.words)
    return {name: " ".join(words) for name, words in found.items()}


def _asides(section: Section) -> Iterator[Entry]:
    for moment in section.moments:
        yield from moment.asides


def _remark(entry: Entry) -> Remark | None:
    note = entry.note
    if entry.outcome != "noted" or not isinstance(note, Remarked):
        return None
    return Remark(entry.event.bowl if entry.event else None, as_written(entry.heard.text, note.value))


def asked(moment: Moment) -> Iterator[str]:
    """What was asked back, or refused, after a moment and before the next: a doubt, beside what it led to."""
    for entry in moment.asides:
        if entry.outcome in ("asked", "refused"):
            said = " ".join(sentence.text for sentence in entry.say)
            heard = f"\N{LEFT DOUBLE QUOTATION MARK}{entry.heard.text.strip()}\N{RIGHT DOUBLE QUOTATION MARK}"
            yield f"Heard {heard}: {said}" if entry.heard.text.strip() else said


def as_written(heard: str, words: str) -> str:
    """The words of a remark with the stops that they had where they were heard."""
    # The note keeps plain words; between two of them stops and spaces may have stood.
    pattern = r"\W+".join(re.escape(word) for word in re.findall(r"[\w']+", words))
    # A remark goes on to the end of what was heard, whatever of its last words was taken for an order.
    found = re.search(pattern + r".*", heard.strip(), re.IGNORECASE | re.DOTALL) if pattern else None
    text = found[0] if found else words
    return (text[:1].upper() + text[1:]).rstrip(",;: ") + ("" if text.endswith((".", "!", "?")) else ".")
