"""An earlier bowl corrected by name: its place, counted from the jack as it lies now, or its owner."""

from typing import Any

from voicecoach.head.along import along
from voicecoach.head.bodies import find, name_of
from voicecoach.head.clock import hour_of, turned
from voicecoach.head.filing import called
from voicecoach.head.holding import filed_gap
from voicecoach.head.lives import law_of_death, marked, with_life
from voicecoach.head.merge import merged_where, two_distances
from voicecoach.head.order import next_number
from voicecoach.head.questions import ask, refuse
from voicecoach.head.values import AskBack, Bowl, Event, Fact, Figures, Head, Refused
from voicecoach.understand.values import DIRECTIONS, BowlName, Corrected, Where

_FATES = {"dead", "in the ditch", "out of the rink", "live", "touching"}


def bowl_by_name(head: Head, note: Corrected, target: BowlName) -> Event | AskBack | Refused:
    """Change that bowl's place or owner, whichever was said."""
    bowl = find(head, target)
    if bowl is None:
        return refuse("bowl not called", Figures(bowl=target))
    note = note.model_copy(update={"target": target})
    if note.swapped:
        return _swapped(head, bowl, note)
    changed = _placed(head, bowl, note)
    if not isinstance(changed, Bowl):
        return changed
    name = _new_name(head, target, note)
    if not isinstance(name, BowlName):
        return name
    return _filed(head, bowl, changed.model_copy(update={"side": name.side, "number": name.number}), note)


def _filed(head: Head, old: Bowl, new: Bowl, note: Corrected) -> Event | Refused:
    """The event of a bowl put right, with the bowls that were called from it."""
    with_it = along(head, old, new)
    if isinstance(with_it, Refused):
        return with_it
    was, name = name_of(old), name_of(new)
    went: tuple[Fact, ...] = ("went along",) if with_it and new.place != old.place else ()
    event = Event(note=note, bowl=name, bowls=(new, *with_it), remarks=went, law=law_of_death(new))
    if name == was:
        return event
    delivered_last = name_of(head.bowls[-1]) == was
    return event.model_copy(
        update={
            "dropped": (was,),
            "last_side": name.side if delivered_last else None,
            "nearer": _renamed_pairs(head, was, name),
        }
    )


def _swapped(head: Head, bowl: Bowl, note: Corrected) -> Event | Refused:
    """Two bowls called by each other's names: each lies where the other was called."""
    one = name_of(bowl)
    other = find(head, BowlName(side=note.side or one.side, number=note.number or one.number))
    if other is None or other is bowl:
        return refuse("bowl not called", Figures(bowl=one))
    two = name_of(other)
    last = name_of(head.bowls[-1])
    names = {one: two, two: one}
    return Event(
        note=note,
        bowl=two,
        bowls=(
            bowl.model_copy(update={"side": two.side, "number": two.number}),
            other.model_copy(update={"side": one.side, "number": one.number}),
        ),
        last_side=names.get(last, last).side,
        nearer=tuple((names.get(near, near), names.get(far, far)) for near, far in head.nearer),
    )


def _placed(head: Head, bowl: Bowl, note: Corrected) -> Bowl | AskBack | Refused:
    """The bowl where the correction puts it; as it is where no place was said."""
    marks = set(note.remarks)
    if marks & {"toucher", "not a toucher"} and not marks & _FATES:
        changed = marked(head, bowl, note)
        if not isinstance(changed, Bowl):
            return changed
        bowl = changed
    elif marks & {"toucher", "not a toucher"}:
        bowl = bowl.model_copy(update={"toucher": "toucher" in marks})
    if (
        note.gap_m is None
        and note.hour is None
        and not two_distances(note)
        and not marks & _FATES.union(DIRECTIONS)
    ):
        return bowl
    now = _where_now(head, bowl)
    where = now.model_copy(update=merged_where(now, note))
    fields = {field: getattr(where, field) for field in Where.model_fields}
    placed = with_life(head, bowl, note.model_copy(update=fields))
    if not isinstance(placed, Bowl):
        return placed
    return placed.model_copy(update={"said": called(where)})


def _where_now(head: Head, bowl: Bowl) -> Where:
    """The bowl's place as the caller would say it now: as called, or worked out since something moved."""
    place, jack = bowl.place, head.jack.place
    if place is None or jack is None:
        return Where()
    unit = bowl.said.unit if bowl.said else None
    if bowl.as_called and bowl.said and bowl.said.gap_m is not None and bowl.said.hour is not None:
        where = bowl.calls[-1].where
        gap, hour, width = bowl.said.gap_m, where.hour or bowl.said.hour, where.hour_width
    else:
        gap, hour, width = filed_gap(head.game, place, jack), hour_of(*place.seen_from(jack)), 1.0
    seen: dict[str, Any] = {"hour": turned(hour) if head.game.stood == "head" else hour}
    return Where(gap_m=gap, unit=unit, hour_width=width, **seen)


def _new_name(head: Head, target: BowlName, note: Corrected) -> BowlName | AskBack:
    """The name after the correction; a number that the other side has already is asked for."""
    side = note.side or target.side
    number = note.number or target.number
    name = BowlName(side=side, number=number)
    if name == target or not find(head, name):
        return name
    if note.number is None:
        return BowlName(side=side, number=next_number(head, side))
    return ask("number", "called already", note, figures=Figures(bowl=name))


def _renamed_pairs(head: Head, old: BowlName, new: BowlName) -> tuple[tuple[BowlName, BowlName], ...] | None:
    if not any(old in pair for pair in head.nearer):
        return None
    return tuple((new if near == old else near, new if far == old else far) for near, far in head.nearer)
