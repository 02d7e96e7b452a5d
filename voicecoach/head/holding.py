"""Who holds shot, how surely, and how many: counted in every sampled head as the laws count.

The default threshold, nine in ten, is "very likely" as the Intergovernmental Panel on Climate Change's
guidance on uncertainty has the word (2010, from memory). A wrong "we hold" costs a shot, "too close to
call" costs a look; at 0.95 a bowl at 1.0 m against one at 1.5 m, both in line, would go unsaid.
"""

import numpy as np

from voicecoach.head.bodies import seen
from voicecoach.head.estimate import Floats
from voicecoach.head.sample import share
from voicecoach.head.values import Game, Head, Holding, Point
from voicecoach.understand.values import Side

LEVEL_M = 1e-6
"""Bowls whose gaps differ by less are level."""


def holding(head: Head, gaps: dict[tuple[Side, int], Floats]) -> Holding | None:
    """Who holds; `gaps` has a row for every bowl that counts. None for a head without bowls.

    A dead jack and a head without a live bowl hold no shot (law 24): side None, no shots.
    """
    if not head.bowls:
        return None
    if not gaps or head.jack.place is None:
        return Holding(side=None, shots=0, sure=True, probability=1.0)
    kept = _as_taped(head, gaps)
    ours, theirs = _rows(kept, "ours"), _rows(kept, "theirs")
    counts = _counts(ours, theirs)
    p_ours, p_theirs = share(counts > 0), share(counts < 0)
    p_level = 1.0 - p_ours - p_theirs
    if p_level >= head.game.sure_at:
        return Holding(side=None, shots=0, sure=True, probability=p_level)
    side: Side = "ours" if p_ours >= p_theirs else "theirs"
    probability = max(p_ours, p_theirs)
    return Holding(
        side=side,
        shots=_sure_count(counts if side == "ours" else -counts, head.game.sure_at),
        sure=probability >= head.game.sure_at,
        probability=probability,
    )


def counted(head: Head) -> tuple[Side | None, int]:
    """Who holds and how many by the filed places alone, without their doubt."""
    gaps = {
        (lies.bowl.side, lies.bowl.number): np.array([filed_gap(head.game, lies.place, lies.jack)])
        for lies in seen(head)
    }
    if not gaps:
        return None, 0
    shots = int(_counts(_rows(gaps, "ours"), _rows(gaps, "theirs"))[0])
    return ("ours" if shots > 0 else "theirs" if shots else None), abs(shots)


def filed_gap(game: Game, bowl: Point, jack: Point) -> float:
    """Between nearest points of the bowl and the jack as filed, metres."""
    return max(0.0, float(np.hypot(*bowl.seen_from(jack))) - (game.bowl_mm + game.jack_mm) / 2000)


def _rows(gaps: dict[tuple[Side, int], Floats], side: Side) -> Floats:
    rows = [row for (owner, _), row in gaps.items() if owner == side]
    return np.array(rows) if rows else np.full((0, len(next(iter(gaps.values())))), np.inf)


def _counts(ours: Floats, theirs: Floats) -> Floats:
    """Shots in each sampled head, ours positive: a side's bowls nearer than the other's nearest (law 23)."""
    nearest_ours = np.min(ours, axis=0, initial=np.inf)
    nearest_theirs = np.min(theirs, axis=0, initial=np.inf)
    up = np.sum(ours < nearest_theirs - LEVEL_M, axis=0)
    down = np.sum(theirs < nearest_ours - LEVEL_M, axis=0)
    return np.asarray(up - down, dtype=np.float64)


def _sure_count(counts: Floats, sure_at: float) -> int | None:
    """The commonest count of the side that holds, if it is sure."""
    values, times = np.unique(counts[counts > 0], return_counts=True)
    if not len(values) or times.max() < sure_at * len(counts):
        return None
    return int(values[times.argmax()])


def _as_taped(head: Head, gaps: dict[tuple[Side, int], Floats]) -> dict[tuple[Side, int], Floats]:
    """Only those sampled heads in which every pair decided by a tape is in the tape's order."""
    if not head.nearer:
        return gaps
    keep = np.ones(len(next(iter(gaps.values()))), dtype=bool)
    for near, far in head.nearer:
        pair = (near.side, near.number), (far.side, far.number)
        if pair[0] in gaps and pair[1] in gaps:
            keep &= gaps[pair[0]] < gaps[pair[1]]
    return {name: row[keep] for name, row in gaps.items()} if keep.any() else gaps
