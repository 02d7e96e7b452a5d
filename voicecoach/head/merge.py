"""A note with a correction in it: only what was said anew is changed."""

from typing import Any

from voicecoach.understand.values import (
    BowlMoved,
    BowlRested,
    Corrected,
    EndFinished,
    JackMoved,
    JackSet,
    Measured,
    Note,
    Where,
)

DIRECTIONS = frozenset(
    {"short", "past", "jack high", "left", "right", "wide", "narrow", "forehand", "backhand"}
)
_UNDONE_BY = {
    "live": {"dead", "in the ditch", "out of the rink"},
    "not a toucher": {"toucher"},
    "toucher": {"not a toucher"},
}


def merged(note: Note, correction: Corrected) -> Note | None:
    """The note with the correction in it; None for a kind of note that a correction can't change."""
    if isinstance(note, BowlRested | BowlMoved):
        return note.model_copy(update={**merged_where(note, correction), **_owner(correction)})
    if isinstance(note, JackMoved):
        return _jack_moved(note, correction)
    if isinstance(note, JackSet):
        confirmed = {"confirmed": correction.confirmed or note.confirmed}
        if correction.gap_m is None:
            return note.model_copy(update=confirmed) if correction.confirmed else None
        return note.model_copy(update={"length_m": correction.gap_m, "confirmed": correction.confirmed})
    if isinstance(note, Measured) and correction.hour is None:
        given = {"gap_m": correction.gap_m, "unit": correction.unit, **_owner(correction)}
        given.pop("confirmed", None)
        return note.model_copy(update={field: value for field, value in given.items() if value is not None})
    if isinstance(note, EndFinished) and correction.side is not None:
        return note.model_copy(update={"side": correction.side})
    return None


def merged_where(where: Where, correction: Corrected) -> dict[str, Any]:
    """The fields of a place with the correction in it."""
    words = set(correction.remarks) & DIRECTIONS
    redirected = bool(words) or correction.hour is not None or two_distances(correction)
    undone = {old for remark in correction.remarks for old in _UNDONE_BY.get(remark, ())}
    kept = [
        remark for remark in where.remarks if remark not in undone | (DIRECTIONS if redirected else set())
    ]
    changed: dict[str, Any] = {"remarks": tuple(dict.fromkeys((*kept, *correction.remarks)))}
    if redirected:
        changed |= {"hour": correction.hour, "hour_width": correction.hour_width}
    if redirected or correction.gap_m is not None:
        changed |= {"along_m": correction.along_m, "across_m": correction.across_m}
    if two_distances(correction):
        changed |= {"gap_m": None, "unit": correction.unit}
    elif correction.gap_m is not None:
        changed |= {"gap_m": correction.gap_m, "unit": correction.unit}
    return changed


def two_distances(where: Where) -> bool:
    """Whether two distances were said, along and across."""
    return where.along_m is not None or where.across_m is not None


def _jack_moved(note: JackMoved, correction: Corrected) -> JackMoved:
    changed = merged_where(note, correction)
    if note.length_m is not None and correction.gap_m is not None and correction.hour is None:
        changed |= {"length_m": correction.gap_m, "gap_m": None}
    elif correction.hour is not None or correction.gap_m is not None:
        changed |= {"length_m": None}
    return note.model_copy(update={**changed, "confirmed": correction.confirmed or note.confirmed})


def _owner(correction: Corrected) -> dict[str, Any]:
    """Whose and which, where those were said."""
    given: dict[str, Any] = {"side": correction.side, "number": correction.number}
    if correction.confirmed:
        given["confirmed"] = True
    return {field: value for field, value in given.items() if value is not None}
