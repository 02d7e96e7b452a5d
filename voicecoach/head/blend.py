"""Several calls of one bowl made one place: each later one weighed against what was known before it.

Nearest-to-truth in the linear sense (best linear unbiased): weights from the two covariances, so that
the blend's own spread is what remains of both. A call that says how far the bowl moved is added on.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from voicecoach.head.estimate import TAPE_SD_M, Covariance, Estimate, estimate, of_call, usual
from voicecoach.head.values import Bowl, Call, Head, JackMove

Matrix = tuple[float, float, float, float]
"""Two rows of two."""
_EXACT = 1e-12


@dataclass(frozen=True)
class TakenIn:
    """One call taken in: `weight` of it, and `1 - weight` of the place that was known before."""

    call: Call
    estimate: Estimate
    weight: Matrix
    covariance: Covariance
    """Of the place after this step, seen from the jack as it lay then."""


def steps(head: Head, calls: Sequence[Call]) -> Iterator[TakenIn]:
    """The calls in order, each with the weight it has against all before it."""
    known: Covariance | None = None
    jack_moves = 0
    for call in calls:
        made = of_call(call, head.game.bowl_mm, head.game.jack_mm)
        if known is not None:
            known = add(known, path_covariance(head, jack_moves, call.jack_moves))
        weight, known = _taken_in(call, made, covariance_of(head, call), known)
        jack_moves = call.jack_moves
        yield TakenIn(call, made, weight, known)


def _taken_in(
    call: Call, made: Estimate, new: Covariance, known: Covariance | None
) -> tuple[Matrix, Covariance]:
    if known is None:
        return (1.0, 0.0, 0.0, 1.0), new
    if call.by:
        return (0.0, 0.0, 0.0, 0.0), add(known, new)
    if by_tape_alone(call):
        return (1.0, 0.0, 0.0, 1.0), new
    if call.stood == "tape":
        return _taped(made, known)
    weight = gain(known, new)
    return weight, _remaining(known, weight)


def covariance_of(head: Head, call: Call) -> Covariance:
    """Of one call's place; one called from another bowl shares the doubt of where that bowl lay."""
    own = of_call(call, head.game.bowl_mm, head.game.jack_mm).covariance()
    return add(own, _covariance_at(head, call.landmark.calls, call.jack_moves)) if call.landmark else own


def by_tape_alone(call: Call) -> bool:
    """Whether the tape gave the hour too, so that nothing is left of what was judged by eye."""
    return call.stood == "tape" and call.where.hour_width == 0


def _taped(made: Estimate, known: Covariance) -> tuple[Matrix, Covariance]:
    """A tape gives the distance alone: all of it along the line from the jack, nothing across it."""
    right, past = made.point
    distance = math.hypot(right, past)
    right, past = right / distance, past / distance
    kx, ky, kc = known
    aside = past * past * kx - 2 * past * right * kc + right * right * ky
    tape = TAPE_SD_M**2
    return (right * right, right * past, right * past, past * past), (
        tape * right * right + aside * past * past,
        tape * past * past + aside * right * right,
        (tape - aside) * right * past,
    )


def gain(known: Covariance, new: Covariance) -> Matrix:
    """How much a new place counts against a known one: known * (known + new)^-1."""
    a, b, c = add(known, new)
    determinant = max(a * b - c * c, _EXACT)
    kx, ky, kc = known
    return (
        (kx * b - kc * c) / determinant,
        (kc * a - kx * c) / determinant,
        (kc * b - ky * c) / determinant,
        (ky * a - kc * c) / determinant,
    )


def squared_distance(difference: tuple[float, float], spread: Covariance) -> float:
    """How far two places are apart, in squared standard deviations."""
    a, b, c = spread
    x, y = difference
    determinant = max(a * b - c * c, _EXACT)
    return (b * x * x - 2 * c * x * y + a * y * y) / determinant


def covariance_now(head: Head, bowl: Bowl) -> Covariance:
    """Of the bowl's place seen from the jack as it lies now."""
    return _covariance_at(head, bowl.calls, len(head.jack_moves))


def _covariance_at(head: Head, calls: Sequence[Call], jack_moves: int) -> Covariance:
    """Of the place that these calls make, seen from the jack as it lay after so many of its moves."""
    known = (0.0, 0.0, 0.0)
    for step in steps(head, calls):
        known = step.covariance
    last = calls[-1].jack_moves if calls else jack_moves
    return add(known, path_covariance(head, last, jack_moves))


def path_covariance(head: Head, first: int, last: int) -> Covariance:
    """Of the way the jack went between two counts of its moves.

    A jack that was placed on a spot lies there exactly: what is uncertain then is where it lay before.
    """
    total = (0.0, 0.0, 0.0)
    for index in range(first, last):
        move = head.jack_moves[index]
        before = path_covariance(head, 0, first) if placed(move) else total
        total = before if placed(move) else add(before, of_move(move).covariance())
    return total


def placed(move: JackMove) -> bool:
    """Whether the jack was placed by hand, so that the move has no doubt of its own."""
    return "respotted" in move.where.remarks


def of_move(move: JackMove) -> Estimate:
    """The distribution of how far and which way the jack moved."""
    return estimate(move.where, move.stood != "mat", move.judging or usual(move.relative_sd), 0.0)


def add(one: Covariance, other: Covariance) -> Covariance:
    """Of the sum of two independent places."""
    return one[0] + other[0], one[1] + other[1], one[2] + other[2]


def _remaining(known: Covariance, weight: Matrix) -> Covariance:
    """(identity - weight) * known."""
    kx, ky, kc = known
    wa, wb, wc, wd = weight
    return (1 - wa) * kx - wb * kc, (1 - wd) * ky - wc * kc, (1 - wa) * kc - wb * ky
