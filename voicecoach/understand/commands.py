"""Reads one line as a whole sentence of the book, or as pieces in any order."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pydantic import TypeAdapter

from voicecoach.phrasebook.book import Command, PhraseBook
from voicecoach.understand import placing
from voicecoach.understand.bag import split
from voicecoach.understand.chart import Chart, fold
from voicecoach.understand.draft import gather
from voicecoach.understand.placing import Meaning
from voicecoach.understand.values import Expected, Note

NOTE: TypeAdapter[Note] = TypeAdapter(Note)
FILLER_COST = 0.4

READERS = {"bowl": placing.bowl, "jack": placing.jack}


def commands(book: PhraseBook, chart: Chart, expected: Expected) -> Iterator[tuple[float, Meaning]]:
    """Every whole sentence of the book that the line can be."""
    for cost, start, end in spans(book, chart):
        for command in book.commands:
            for match in chart.match(command.node, start):
                if match.end == end:
                    yield cost + match.cost, Meaning(_note(command, fold(match.captures)))


def _note(command: Command, captures: dict[str, Any]) -> Note:
    fields: dict[str, Any] = {"kind": command.kind, **command.constants}
    for slot, value in captures.items():
        fields |= value if isinstance(value, dict) else {slot: value}
    fields.pop("last", None)
    return NOTE.validate_python(fields)


def placings(book: PhraseBook, chart: Chart, expected: Expected) -> Iterator[tuple[float, Meaning]]:
    """Every note about a bowl or the jack that the line's pieces make."""
    for cost, start, end in spans(book, chart):
        for name, reader in READERS.items():
            for way in split(chart, book.bags[name], start, end):
                draft = gather(way.pieces)
                meaning = reader(draft, expected) if draft and way.pieces else None
                if meaning:
                    yield cost + way.cost, meaning


def spans(book: PhraseBook, chart: Chart) -> Iterator[tuple[float, int, int]]:
    """The line without the small words around it, more or less of them cut."""
    words = chart.words
    starts = [0, *_openings(book, words)]
    for start in starts:
        for end in [len(words), *_closings(book, words)]:
            if start < end:
                cut = start + len(words) - end
                yield FILLER_COST * cut, start, end


def _openings(book: PhraseBook, words: list[str] | Any) -> Iterator[int]:
    for filler in book.fillers["opening"]:
        said = filler.split()
        if list(words[: len(said)]) == said:
            yield len(said)


def _closings(book: PhraseBook, words: list[str] | Any) -> Iterator[int]:
    for filler in book.fillers["closing"]:
        said = filler.split()
        if list(words[-len(said) :]) == said:
            yield len(words) - len(said)
