"""Results of practice: what is kept of each round, and what a series of them says."""

from collections.abc import Iterable, Sequence
from statistics import fmean, geometric_mean
from typing import Literal

from voicecoach.coach.marks import Mark
from voicecoach.value import Value

ENOUGH = 10
"""Answers in a form below which it isn't compared."""
SHOWN = 8
"""Rounds in a spoken series."""
AHEAD = 1.645
"""Standard errors by which a form must lead to be named: wrong once in twenty."""


class Result(Value):
    """One round of practice."""

    at: str
    """When, ISO 8601."""
    kind: Literal["calling", "questions", "saying back"]
    bowls: int
    """Bowls in the head."""
    form: str | None = None
    """How the head was read; None for calling."""
    right: int
    """Answers, or points, that were right."""
    of: int
    """Answers, or points, there could have been."""
    distance_off: float | None = None
    """How far off the called distances were on the whole, as a share."""
    distance_ratio: float | None = None
    """Called distance for each metre of the true one, on the whole."""
    hour_off: float | None = None
    """How far off the called hours were on the whole, hours."""


class Tally(Value):
    """All answers given to one form at one length, in one kind of round: the others are other tasks."""

    kind: Literal["questions", "saying back"]
    form: str
    bowls: int
    right: int
    of: int


def of_marks(marks: Sequence[Mark]) -> dict[str, float]:
    """The figures that a round's marks come to; none for a round without any."""
    if not marks:
        return {}
    return {
        "distance_off": round(fmean(mark.distance_off for mark in marks), 4),
        "distance_ratio": round(geometric_mean(mark.ratio for mark in marks), 4),
        "hour_off": round(fmean(abs(mark.hour_off) for mark in marks), 4),
    }


def series(results: Iterable[Result]) -> tuple[float, ...]:
    """How far off the distances were in the last rounds of calling, oldest first."""
    offs = [each.distance_off for each in results if each.kind == "calling" and each.distance_off is not None]
    return tuple(offs[-SHOWN:])


def tallies(results: Iterable[Result]) -> tuple[Tally, ...]:
    """Each form at each length in each kind of round: by kind, then by form, then by length."""
    found: dict[tuple[str, str, int], Tally] = {}
    for each in results:
        if each.form is None or each.kind == "calling":
            continue
        key = (each.kind, each.form, each.bowls)
        before = found.get(key, Tally(kind=each.kind, form=each.form, bowls=each.bowls, right=0, of=0))
        found[key] = before.model_copy(update={"right": before.right + each.right, "of": before.of + each.of})
    return tuple(found[key] for key in sorted(found))


def best(counts: Sequence[Tally]) -> Tally | Literal["close", "few"]:
    """Of tallies of one kind at one length, the one that is clearly ahead of the next; else why none is."""
    enough = sorted((each for each in counts if each.of >= ENOUGH), key=lambda each: -each.right / each.of)
    if len(enough) < 2:
        return "few"
    # Shares are pulled to the middle (Agresti and Caffo 2000, from memory): all of ten isn't certain.
    (a, n), (b, m) = (((each.right + 1) / (each.of + 2), each.of + 2) for each in enough[:2])
    error = (a * (1 - a) / n + b * (1 - b) / m) ** 0.5
    return enough[0] if a - b > AHEAD * error else "close"


def least_tried(results: Iterable[Result], forms: Sequence[str], bowls: int, kind: str) -> str:
    """The form to try next in a kind of round, so that all are compared evenly: the least answered."""
    counts = dict.fromkeys(forms, 0)
    for each in results:
        if each.form in counts and (each.bowls, each.kind) == (bowls, kind):
            counts[each.form] += each.of
    return min(forms, key=lambda form: counts[form])
