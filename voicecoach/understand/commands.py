"""Reads one line as a whole sentence of the book."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from pydantic import TypeAdapter, ValidationError

from voicecoach.phrasebook.book import Command
from voicecoach.understand.chart import Chart, fold
from voicecoach.understand.index import Index
from voicecoach.understand.meaning import Meaning
from voicecoach.understand.pieces import Gap, Hour
from voicecoach.understand.placing import is_at_once
from voicecoach.understand.players import numbered
from voicecoach.understand.values import Expected, Note

NOTE: TypeAdapter[Note] = TypeAdapter(Note)
IN_PLACE_COST = -0.5
"""A sentence that belongs to what is going on (a walk) is likelier than the same words elsewhere."""


def commands(
    index: Index, chart: Chart, start: int, end: int, expected: Expected
) -> Iterator[tuple[float, Meaning]]:
    """Every whole sentence of the book that these words can be."""
    for command in index.commands(chart.sounds[start]):
        if not _may_be_meant(command, end - start, expected):
            continue
        for match in chart.whole(command.node, start, end):
            said = fold(match.captures)
            said = {slot: _numbered(value, said, expected) for slot, value in said.items()}
            note = _note(command, said)
            if note:
                cost = match.cost + (IN_PLACE_COST if command.when else 0)
                yield cost, Meaning(note, "yes or no" if command.unsure else None, passing=command.unsure)


def _numbered(value: Any, said: Mapping[str, Any], expected: Expected) -> Any:
    """A bowl's name with its number, where it is a player's; the rest as it is."""
    if not isinstance(value, dict):
        return value
    return numbered(value, value.get("side", said.get("side", expected.next_side)), expected) or {}


def _may_be_meant(command: Command, length: int, expected: Expected) -> bool:
    """False for a sentence out of place, and for a lone "theirs" that amends the note just filed."""
    if command.when and not getattr(expected, command.when):
        return False
    alone = length == 1 and command.constants.get("ask") in ("ours", "theirs")
    return not (alone and is_at_once(expected))


def _note(command: Command, captures: Mapping[str, Any]) -> Note | None:
    """The note of a sentence; None when the words are right and the meaning isn't (no such bowl)."""
    fields: dict[str, Any] = {"kind": command.kind, **command.constants}
    for slot, value in captures.items():
        fields |= _fields(slot, value)
    if "second" in fields:  # "swap our first and second": the second of one side, unless another was said
        first = fields.get("target") or {}
        fields |= {"side": first.get("side"), **fields.pop("second")}
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
            return {"value": float(f"{value.metres:g}")}
        return {"gap_m": value.metres, "unit": value.unit} if slot == "gap" else {f"{slot}_m": value.metres}
    if isinstance(value, Hour):
        return {slot: value.hour}
    if isinstance(value, dict):
        return {slot: value} if slot in ("nearer_than", "target", "second") else value
    return {slot: value}


def free_words(chart: Chart, start: int, end: int) -> Iterator[tuple[float, Meaning]]:
    """What is followed by words of the speaker's own: a remark ("remark: shoulder dropped"), a name."""
    for part, name in (("remark_opening", "remark"), ("player_opening", "player")):
        for match in chart.part(part, start):
            words = chart.words[match.end : end]
            if words and "[unk]" not in words:
                said = dict(match.captures).get("name", {})
                bowl = {key: said[key] for key in ("side", "number") if key in said}
                note = NOTE.validate_python(
                    {"kind": "setting", "name": name, "value": " ".join(words), **bowl}
                )
                yield match.cost + len(words), Meaning(note)
