"""A tape entered by the user: a bowl's gap, or which of two bowls it found nearer. Only this is measured."""

import math

from voicecoach.head.blend import covariance_now
from voicecoach.head.bodies import (
    Body,
    Seen,
    bowl_radius,
    bowls_in_place,
    find,
    jack_in_place,
    jack_radius,
    name_of,
)
from voicecoach.head.clock import hour_of, offset, turned
from voicecoach.head.estimate import Covariance
from voicecoach.head.filing import FARTHEST_M
from voicecoach.head.holding import LEVEL_M, counted, filed_gap
from voicecoach.head.order import bowls_a_side
from voicecoach.head.questions import ask, refuse
from voicecoach.head.resize import at_gap
from voicecoach.head.values import AskBack, Bowl, Call, Event, Fact, Figures, Head, Point, Refused
from voicecoach.head.which import which
from voicecoach.understand.values import BowlName, Measured, Where

_APART_M = 0.001
"""How far apart two bowls are filed of which a tape only said which is nearer."""


def measured(head: Head, note: Measured) -> Event | AskBack | Refused:
    """Put the tape's figure, or the tape's order, in place of what was judged by eye."""
    bowl = which(head, note)
    if isinstance(bowl, BowlName):
        return refuse("bowl not called", Figures(bowl=bowl))
    if not isinstance(bowl, Bowl):
        return bowl
    place, jack = bowl.place, head.jack.place
    if place is None or jack is None:
        return refuse("bowl or jack dead", Figures(bowl=name_of(bowl)))
    seen = Seen(bowl, place, jack)
    if note.gap_m is not None:
        return _taped(head, seen, note, note.gap_m)
    if note.nearer_than is not None:
        return _nearer(head, seen, note, note.nearer_than)
    return ask("gap", "tape figure", note)


def _taped(head: Head, seen: Seen, note: Measured, gap_m: float) -> Event | Refused:
    if not 0 <= gap_m <= FARTHEST_M:
        return refuse("tape too long")
    bowl, hour = seen.bowl, _hour(head, note)
    towards = seen.place if hour is None else _on_hour(head, seen.jack, gap_m, hour)
    spot = at_gap(head.game, towards, seen.jack, gap_m, _others(head, bowl))
    if spot is None:
        return refuse("no room to measure")
    found = round(hour_of(*spot.seen_from(seen.jack)), 9)
    where = Where(gap_m=gap_m, unit=note.unit, hour=found, hour_width=1.0 if hour is None else 0.0)
    call = Call(where=where, jack_moves=len(head.jack_moves), stood="tape", relative_sd=0.0)
    taped = {"gap_m": gap_m, "unit": note.unit} | ({} if hour is None else {"hour": hour})
    said = bowl.said.model_copy(update=taped) if bowl.said else None
    changed = bowl.put_at(spot).model_copy(update={"calls": (*bowl.calls, call), "said": said})
    event = _event(head, note, [changed])
    overruled = _overruled(head, changed)
    if not overruled:
        return event
    kept = tuple(pair for pair in head.nearer if pair not in overruled)
    return event.model_copy(update={"nearer": kept, "remarks": (*event.remarks, "tape over order")})


def _overruled(head: Head, changed: Bowl) -> list[tuple[BowlName, BowlName]]:
    """The orders said before that two figures of the tape now contradict: what was measured last counts."""
    now, found = head.model_copy(update={"bowls": tuple(_with(head.bowls, [changed]))}), []
    for pair in head.nearer:
        near, far = (find(now, name) for name in pair)
        if name_of(changed) not in pair or near is None or far is None:
            continue
        taped = _by_tape(near) and _by_tape(far)
        if taped and _gap(now, near) > _gap(now, far) + LEVEL_M:
            found.append(pair)
    return found


def _hour(head: Head, note: Measured) -> float | None:
    """The measured hour as seen from the mat, where one was said."""
    return note.hour if note.hour is None or head.game.stood == "mat" else turned(note.hour)


def _on_hour(head: Head, jack: Point, gap_m: float, hour: float) -> Point:
    return jack.shifted(*offset(hour, gap_m + bowl_radius(head.game) + jack_radius(head.game)))


def _gap(head: Head, bowl: Bowl) -> float:
    """The filed gap; infinite for a bowl without a place, which is never the nearer one."""
    place, jack = bowl.place, head.jack.place
    return math.inf if place is None or jack is None else filed_gap(head.game, place, jack)


def _nearer(head: Head, seen: Seen, note: Measured, other: BowlName) -> Event | Refused:
    """Keep the order that the tape found; places that say otherwise are moved to where they meet."""
    bowl, far = seen.bowl, find(head, other)
    far_at = far.place if far else None
    if far is None or far_at is None or far is bowl:
        return refuse("not compared", Figures(bowl=other))
    pairs = [pair for pair in head.nearer if set(pair) != {name_of(bowl), other}]
    pair = (name_of(bowl), other)
    if _gap(head, bowl) < _gap(head, far) - LEVEL_M:
        return _event(head, note, []).model_copy(update={"nearer": (*pairs, pair)})
    if _by_tape(bowl) and _by_tape(far):
        return refuse("tape against tape")
    middle = _middle(head, bowl, far)
    spots = [(bowl, seen.place, max(0.0, middle - _APART_M / 2)), (far, far_at, middle + _APART_M / 2)]
    changed: list[Bowl] = []
    for moving, place, gap in spots:
        now = head.model_copy(update={"bowls": tuple(_with(head.bowls, changed))})
        spot = at_gap(now.game, place, seen.jack, gap, _others(now, moving))
        if spot is None:
            return refuse("no room in that order")
        changed.append(moving.put_at(spot))
    return _event(head, note, changed).model_copy(update={"nearer": (*pairs, pair)})


def _with(bowls: tuple[Bowl, ...], changed: list[Bowl]) -> list[Bowl]:
    new = {name_of(bowl): bowl for bowl in changed}
    return [new.get(name_of(bowl), bowl) for bowl in bowls]


def _middle(head: Head, one: Bowl, other: Bowl) -> float:
    """The gap that both calls make likeliest for two bowls that lie about level."""
    weights = [1 / max(_spread(covariance_now(head, bowl)), 1e-9) for bowl in (one, other)]
    gaps = [_gap(head, bowl) for bowl in (one, other)]
    return sum(w * g for w, g in zip(weights, gaps, strict=True)) / sum(weights)


def _spread(covariance: Covariance) -> float:
    return covariance[0] + covariance[1]


def _by_tape(bowl: Bowl) -> bool:
    return bowl.calls[-1].stood == "tape"


def _others(head: Head, bowl: Bowl) -> list[Body]:
    return bowls_in_place(head, without=name_of(bowl)) + jack_in_place(head)


def _event(head: Head, note: Measured, changed: list[Bowl]) -> Event:
    """The event, with a word where it comes early (law 23.3) or changes a score that was noted."""
    after = head.model_copy(update={"bowls": tuple(_with(head.bowls, changed))})
    early = head.game.format is not None and len(head.bowls) < 2 * bowls_a_side(head.game)
    remarks: list[Fact] = ["still to come"] if early and not head.finished else []
    if head.finished and counted(after) != counted(head):
        remarks.append("holder changed")
    name = BowlName(side=note.side, number=note.number) if note.side and note.number else None
    return Event(
        note=note,
        bowl=name or (name_of(changed[0]) if changed else None),
        bowls=tuple(changed),
        law="23.3" if early and not head.finished else None,
        remarks=tuple(remarks),
    )
