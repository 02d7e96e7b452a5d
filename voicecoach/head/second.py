"""A second note about a bowl that lies already: it sharpens the place, or it has to be asked about."""

from voicecoach.head.blend import add, covariance_now, covariance_of, gain, squared_distance
from voicecoach.head.bodies import Seen, bowl_radius, bowls_in_place, jack_in_place, name_of
from voicecoach.head.estimate import of_call, origin_of
from voicecoach.head.filing import call_of, called
from voicecoach.head.lives import law_of_death, marked
from voicecoach.head.questions import Offer, ask, refuse
from voicecoach.head.room import DOUBT, blockers
from voicecoach.head.values import AskBack, Bowl, Call, Event, Figures, Head, Refused
from voicecoach.understand.values import BowlMoved, BowlRested, Corrected, Where

_FATES = {"dead", "in the ditch", "out of the rink"}


def second_note(head: Head, bowl: Bowl, note: BowlRested) -> Event | AskBack | Refused:
    """What another note about this bowl does."""
    name = name_of(bowl)
    if note.gap_m is None and note.hour is None and note.remarks in (("toucher",), ("not a toucher",)):
        changed = marked(head, bowl, note)
        if not isinstance(changed, Bowl):
            return changed
        return Event(note=note, bowl=name, bowls=(changed,), law=law_of_death(changed))
    place = bowl.place
    if place is None or _FATES & set(note.remarks):
        return _moved_or_corrected(bowl, note)
    call = call_of(head, name, note, note)
    jack = head.jack.place
    if jack is None:
        return refuse("jack dead")
    if not isinstance(call, Call):
        return call
    sharper = _sharpened(head, Seen(bowl, place, jack), note, call)
    return Event(note=note, bowl=name, bowls=(sharper,)) if sharper else _moved_or_corrected(bowl, note)


def _sharpened(head: Head, seen: Seen, note: BowlRested, call: Call) -> Bowl | None:
    """The bowl at the place that both notes together make likeliest; None where the doubt can't join them."""
    made = of_call(call, head.game.bowl_mm, head.game.jack_mm)
    bowl, (right, past) = seen.bowl, seen.place.seen_from(seen.jack)
    told = origin_of(call, seen.jack).shifted(*made.point).seen_from(seen.jack)
    difference = (told[0] - right, told[1] - past)
    known, new = covariance_now(head, bowl), covariance_of(head, call)
    if squared_distance(difference, add(known, new)) > DOUBT:
        return None
    a, b, c, d = gain(known, new)
    dx, dy = difference
    place = seen.place.shifted(a * dx + b * dy, c * dx + d * dy)
    others = bowls_in_place(head, without=name_of(bowl)) + jack_in_place(head)
    if blockers(place, bowl_radius(head.game), others):
        place = seen.place
    same_hour = bowl.as_called and bowl.said is not None and bowl.said.hour == note.hour and not note.landmark
    return bowl.put_at(place).model_copy(
        update={
            "said": called(note),
            "as_called": same_hour,
            "calls": (*bowl.calls, call),
            "toucher": bowl.toucher or "toucher" in note.remarks,
        }
    )


def _moved_or_corrected(bowl: Bowl, note: BowlRested) -> AskBack:
    """Ask which of the two it was."""
    name = name_of(bowl)
    where = {field: getattr(note, field) for field in Where.model_fields}
    moved = BowlMoved(side=bowl.side, number=bowl.number, **where)
    corrected = Corrected(target=name, **where)
    offers: list[Offer] = [("moved", moved), ("corrected", corrected)]
    return ask("choice", "moved or corrected", note, offers, Figures(bowl=name))
