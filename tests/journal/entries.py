"""Entries for the journal's tests: small, each different."""

from voicecoach.describe.values import Sentence
from voicecoach.head.values import Event
from voicecoach.hear.values import Heard
from voicecoach.session.values import Entry
from voicecoach.understand.values import BowlName, BowlRested

HOURS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def entry(number: int, at: str = "2026-05-30T14:00:00+01:00") -> Entry:
    """Entry number so-and-so: a bowl at rest."""
    hour = number % 12 or 12
    note = BowlRested(side="ours", gap_m=0.8, unit="cm", hour=float(hour))
    text = f"ours eighty centimetres {HOURS[hour - 1]} o'clock"
    return Entry(
        number=number,
        at=at,
        heard=Heard(text=text),
        outcome="noted",
        note=note,
        event=Event(note=note, bowl=BowlName(side="ours", number=number)),
        say=(Sentence(text=text),),
    )


def entries(count: int, first: int = 1) -> tuple[Entry, ...]:
    """So many entries, numbered on from the first."""
    return tuple(entry(number) for number in range(first, first + count))
