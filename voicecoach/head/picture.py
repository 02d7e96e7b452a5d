"""How the head looks from the jack now, with how sure each thing is."""

from functools import lru_cache
from typing import Literal

import numpy as np

from voicecoach.head.blend import by_tape_alone
from voicecoach.head.bodies import Seen
from voicecoach.head.clock import HOUR, hour_of, snapped
from voicecoach.head.estimate import Floats
from voicecoach.head.holding import filed_gap, holding
from voicecoach.head.order import still_to_come, to_come
from voicecoach.head.sample import Points, path_of, sampled, share
from voicecoach.head.values import Bowl, Head, Lie, Picture, Score, Sure
from voicecoach.understand.values import Side

SIDE_SURE = 0.95
"""A half of the green (left, right, short, past) is named only if it is wrong once in twenty at most."""
HOUR_SURE = 2 / 3
"""A recomputed hour is said plainly when it is twice as likely as all others together."""
_MIDWAY = 0.25
"""Nearer than this to the middle of an hour it is "about" that hour, else "between" the two, hours."""
_NOT_OF_PLACES = {
    "end": 1,
    "finished": False,
    "lead": None,
    "last_side": None,
    "score": Score(),
    "nearer": (),
    "scattered": (),
}
"""Fields of a head on which no bowl's place depends."""
Between = tuple[int, int] | None
Depth = Literal["short", "past", "jack high"] | None


def picture(head: Head) -> Picture:
    """The head worked out for speech."""
    placed = head.model_copy(update={"bowls": (), **_NOT_OF_PLACES})
    lies: list[Lie] = []
    gaps: dict[tuple[Side, int], Floats] = {}
    for bowl in head.bowls:
        place, jack = bowl.place, head.jack.place
        if place is None or jack is None:
            lies.append(_without_a_place(bowl))
            continue
        lie, gaps[(bowl.side, bowl.number)] = _seen(placed, Seen(bowl, place, jack))
        lies.append(lie)
    return Picture(
        head=head,
        lies=tuple(lies),
        holding=holding(head, gaps),
        next_up=still_to_come(head),
        to_come=to_come(head),
    )


@lru_cache(maxsize=128)
def _seen(head: Head, seen: Seen) -> tuple[Lie, Floats]:
    """One bowl as it lies, with its sampled gaps; kept, since most notes leave most bowls where they are."""
    points = sampled(head, seen, path_of(head))
    reach = (head.game.bowl_mm + head.game.jack_mm) / 2000
    gap = np.maximum(np.hypot(*points) - reach, 0.0)
    gap.flags.writeable = False
    return _lie(head, seen, points, gap), gap


def _lie(head: Head, seen: Seen, points: Points, gap: Floats) -> Lie:
    bowl, (across, along) = seen.bowl, seen.place.seen_from(seen.jack)
    exact = hour_of(across, along)
    hour, sure, between = _hour(bowl, exact, points)
    return _without_a_place(bowl).model_copy(
        update={
            "gap_m": filed_gap(head.game, seen.place, seen.jack),
            "hour_exact": exact,
            "hour": hour,
            "sure": sure,
            "between": between,
            "gap_sd_m": float(np.std(gap)),
            "doubt": _covariance(points),
            "left_right": _left_right(points[0]),
            "depth": _depth(head, bowl, points[1]),
            "along_m": along,
            "across_m": across,
        }
    )


def _covariance(points: Points) -> tuple[float, float, float]:
    across, along = points[0] - points[0].mean(), points[1] - points[1].mean()
    heads = len(across)
    return float(across @ across) / heads, float(along @ along) / heads, float(across @ along) / heads


def _without_a_place(bowl: Bowl) -> Lie:
    """What is known of a bowl wherever it lies."""
    return Lie(
        side=bowl.side,
        number=bowl.number,
        x_m=bowl.x_m,
        y_m=bowl.y_m,
        gap_m=None,
        hour_exact=None,
        hour=None,
        said=bowl.said,
        state=bowl.state,
        toucher=bowl.toucher,
        why_dead=bowl.why_dead,
        measured=bool(bowl.calls) and bowl.calls[-1].stood == "tape" and bowl.place is not None,
        unit=bowl.said.unit if bowl.said else None,
    )


def _hour(bowl: Bowl, exact: float, points: Points) -> tuple[float, Sure, Between]:
    """The hour as spoken: as called until something moved, then the nearest whole one."""
    if bowl.as_called:
        called = _called_hour(bowl, exact)
        if called % 1 and bowl.calls and bowl.calls[-1].where.hour_width >= 1.0:
            return called, "between", (int(called) or 12, int(called) % 12 + 1)
        return called, "plain", None
    hour = snapped(exact)
    hours = np.arctan2(points[0], points[1]) / HOUR
    off = np.abs((hours - hour + 6.0) % 12.0 - 6.0)
    if share(off <= 0.5) >= HOUR_SURE:
        return hour, "plain", None
    lean = (exact - hour + 6.0) % 12.0 - 6.0
    if abs(lean) <= _MIDWAY:
        return hour, "about", None
    neighbour = (hour + (1 if lean > 0 else -1)) % 12 or 12
    return hour, "between", (hour, neighbour) if lean > 0 else (neighbour, hour)


def _called_hour(bowl: Bowl, exact: float) -> float:
    """The called hour, or the half-hour that the words for the direction make."""
    hours = [call.where.hour for call in bowl.calls if call.stood != "tape" or by_tape_alone(call)]
    return hours[-1] if hours and hours[-1] is not None else float(snapped(exact))


def _left_right(across: Floats) -> Literal["left", "right"] | None:
    if share(across > 0) >= SIDE_SURE:
        return "right"
    return "left" if share(across < 0) >= SIDE_SURE else None


def _depth(head: Head, bowl: Bowl, along: Floats) -> Depth:
    """Short or past by centres; jack high by nearest parts to the mat line (definition C.26)."""
    if bowl.as_called and bowl.said is not None and "jack high" in bowl.said.remarks:
        return "jack high"
    if share(along < 0) >= SIDE_SURE:
        return "short"
    if share(along > 0) >= SIDE_SURE:
        return "past"
    nearest_parts = along - (head.game.bowl_mm - head.game.jack_mm) / 2000
    level = share(np.abs(nearest_parts) <= head.game.bowl_mm / 1000)
    return "jack high" if level >= SIDE_SURE else None
