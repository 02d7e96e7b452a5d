"""Is a note what the line meant?"""

from __future__ import annotations

from collections.abc import Mapping

from voicecoach.understand.values import Note

_FIELDS = ("side", "number", "gap_m", "hour", "ask")
_METRES = 0.006
"""Two distances this close are one: both come from exact units, rounded."""


def means(note: Note, meaning: Mapping[str, object] | None) -> bool:
    """True when every field is what was said, and no field says more."""
    if meaning is None or note.kind != meaning["kind"]:
        return False
    fields = {*_FIELDS, *meaning} - {"kind", "remarks", "gap_said"}
    return all(alike(getattr(note, field, None), meaning.get(field)) for field in fields) and (
        _remarks(note) == set(_listed(meaning.get("remarks")))
    )


def alike(said: object, meant: object) -> bool:
    """True when a field is what was meant."""
    if isinstance(said, (int, float)) and isinstance(meant, (int, float)):
        return abs(said - meant) < _METRES
    return said == meant


def _remarks(note: Note) -> set[str]:
    return set(getattr(note, "remarks", ())) - {"about"}


def _listed(value: object) -> list[str]:
    return list(value) if isinstance(value, (list, tuple)) else []
