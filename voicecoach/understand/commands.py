"""Reads one line as a whole sentence of the book."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from pydantic import TypeAdapter, ValidationError

from voicecoach.phrasebook.book import Command
from voicecoach.understand.chart import Chart, Index, fold
from voicecoach.understand.pieces import Gap
from voicecoach.understand.placing import Meaning
from voicecoach.understand.values import Expected, Note, Setting

NOTE: TypeAdapter[Note] = TypeAdapter(Note)
IN_PLACE_COST = -0.5
"""A sentence that belongs to what is going on (a walk) is likelier than the same words elsewhere."""


def commands(
    index: Index, chart: Chart, start: int, end: int, expected: Expected
) -> Iterator[tuple[float, Meaning]]:
    """Every whole sentence of the book that these words can be."""
    for command in index.commands(chart.words[start]):
        if command.when and not getattr(expected, command.when):
            continue
        for match in chart.whole(command.node, start, end):
            note = _note(command, fold(match.captures))
            if note:
                yield match.cost + (IN_PLACE_COST if command.when else 0), Meaning(note)


def _note(command: Command, captures: Mapping[str, Any]) -> Note | None:
    """The note of a sentence; None when the words are right and the meaning isn't (no such bowl)."""
    fields: dict[str, Any] = {"kind": command.kind, **command.constants}
    for slot, value in captures.items():
        fields |= _fields(slot, value)
    if fields.pop("last", False) and command.kind == "question":
        fields["ask"] = "last"
    try:
        return NOTE.validate_python(fields)
    except ValidationError:
        return None


def _fields(slot: str, value: Any) -> dict[str, Any]:
    """One slot's value as the note's fields: a name is a side and a number, a gap is metres and unit."""
    if isinstance(value, Gap):
        if slot == "pace":
            return {"value": f"{value.metres:g}"}
        return {"gap_m": value.metres, "unit": value.unit} if slot == "gap" else {f"{slot}_m": value.metres}
    if isinstance(value, dict):
        return {slot: value} if slot == "nearer_than" else value
    return {slot: value}


def remark(chart: Chart, start: int, end: int) -> Iterator[tuple[float, Meaning]]:
    """A remark in free words, pinned to a bowl: "remark on our second: shoulder dropped"."""
    for match in chart.part("remark_opening", start):
        words = chart.words[match.end : end]
        if words and "[unk]" not in words:
            name = dict(match.captures).get("name", {})
            bowl = {key: name[key] for key in ("side", "number") if key in name}
            yield match.cost + len(words), Meaning(Setting(name="remark", value=" ".join(words), **bowl))
