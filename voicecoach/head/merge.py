"""A note with a correction in it: only what was said anew is changed."""

from typing import Any

from voicecoach.understand.notes.bowls import BowlNote
from voicecoach.understand.values import (
    DIRECTIONS,
    Corrected,
    EndFinished,
    JackMoved,
    JackSet,
    Measured,
    Note,
    Where,
)

SHORTEST_LENGTH_M = 10.0
"""A distance of the jack from here on is its length, not how far it moved (our own choice)."""
_UNDONE_BY = {
    "in the ditch": {"dead", "out of the rink"},
    "live": {"dead", "in the ditch", "out of the rink"},
    "not a toucher": {"toucher"},
    "toucher": {"not a toucher"},
}


def merged(note: Note, correction: Corrected) -> Note | None:
    """The note with the correction in it; None for a kind of note that a correction can't change."""
    changes: dict[str, Any] | None = None
    if isinstance(note, BowlNote):
        changes = {**merged_where(note, correction), **_owner(correction)}
    elif isinstance(note, JackMoved):
        changes = _jack_moved(note, correction)
    elif isinstance(note, JackSet) and correction.gap_m is not None:
        changes = {"length_m": correction.gap_m}
    elif isinstance(note, Measured) and correction.hour is None:
        figure = {} if correction.gap_m is None else {"gap_m": correction.gap_m, "unit": correction.unit}
        return note.model_copy(update={**figure, **_owner(correction)})
    elif isinstance(note, EndFinished) and correction.side is not None:
        changes = {"side": correction.side}
    if changes is None or isinstance(note, Measured):
        return None
    return note.model_copy(update={**changes, "confirmed": correction.confirmed})


def merged_where(where: Where, correction: Corrected) -> dict[str, Any]:
    """The fields of a place with the correction in it."""
    where = _seen_from(where, correction)
    words = set(correction.remarks) & set(DIRECTIONS)
    redirected = bool(words) or correction.hour is not None or two_distances(correction)
    undone = {old for remark in correction.remarks for old in _UNDONE_BY.get(remark, ())}
    gone = undone.union(DIRECTIONS) if redirected else undone
    kept = [remark for remark in where.remarks if remark not in gone]
    changed: dict[str, Any] = {
        "landmark": where.landmark,
        "remarks": tuple(dict.fromkeys((*kept, *correction.remarks))),
    }
    if redirected:
        changed |= {"hour": correction.hour, "hour_width": correction.hour_width}
    if redirected or correction.gap_m is not None:
        changed |= {"along_m": correction.along_m, "across_m": correction.across_m}
    if two_distances(correction):
        changed |= {"gap_m": None, "unit": correction.unit}
    elif correction.gap_m is not None:
        changed |= {"gap_m": correction.gap_m, "unit": correction.unit}
    return changed


def _seen_from(where: Where, correction: Where) -> Where:
    """What is kept of a place that is now called from another bowl, or from the jack: nothing of where."""
    whole = correction.gap_m is not None and (
        correction.hour is not None or not set(DIRECTIONS).isdisjoint(correction.remarks)
    )
    landmark = correction.landmark
    if landmark == where.landmark or not (landmark or whole or two_distances(correction)):
        return where
    kept = tuple(word for word in where.remarks if word not in (*DIRECTIONS, "touching"))
    return Where(landmark=landmark, unit=where.unit, remarks=kept)


def is_a_length(where: Where) -> bool:
    """Whether the distance is the jack's from the mat line: so far it doesn't move."""
    directed = where.hour is not None or not set(DIRECTIONS).isdisjoint(where.remarks)
    return where.gap_m is not None and where.gap_m >= SHORTEST_LENGTH_M and not directed


def two_distances(where: Where) -> bool:
    """Whether two distances were said, along and across."""
    return where.along_m is not None or where.across_m is not None


def _jack_moved(note: JackMoved, correction: Corrected) -> dict[str, Any]:
    """A move told as a new length is corrected by a length, any other as far as towards an hour."""
    changed = merged_where(note, correction)
    if correction.gap_m is not None or two_distances(correction):  # a dead jack has no place to be put right
        gone = {"dead", "out of the rink"} - set(correction.remarks)
        changed["remarks"] = tuple(remark for remark in changed["remarks"] if remark not in gone)
    alone = correction.gap_m is not None and correction.hour is None
    if alone and (note.length_m is not None or is_a_length(correction)):
        return {**changed, "length_m": correction.gap_m, "gap_m": None}
    if correction.hour is not None or correction.gap_m is not None:
        return {**changed, "length_m": None}
    return changed


def _owner(correction: Corrected) -> dict[str, Any]:
    """Whose and which, where those were said."""
    given = {"side": correction.side, "number": correction.number}
    return {field: value for field, value in given.items() if value is not None}
