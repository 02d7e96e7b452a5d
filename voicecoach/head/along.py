"""Bowls that were called from another bowl: where that one was called wrongly, they go along with it."""

from voicecoach.head.bodies import Body, bowl_radius, bowls_in_place, jack_in_place, name_of
from voicecoach.head.estimate import of_call
from voicecoach.head.questions import refuse
from voicecoach.head.room import blockers, free_place
from voicecoach.head.values import Bowl, Call, Figures, Head, Landmark, Refused


def along(head: Head, old: Bowl, new: Bowl) -> tuple[Bowl, ...] | Refused:
    """The bowls that hang on a bowl which is put right, and those that hang on them, as they lie then.

    A landmark that was moved in play since leaves behind what was called from it: only where it lay wrongly
    when it was called does what was called from it lie wrongly too.

    Args:
        head: The head before the correction.
        old: The bowl as it lay and was named.
        new: The same bowl as it is put right.
    """
    if old.place is None or new.place is None or head.jack.place is None:
        return ()
    shift = new.place.seen_from(old.place)
    hanging: list[tuple[Bowl, Bowl]] = [(old, new)]
    for before, after in hanging:
        hanging += [(bowl, _moved(bowl, after, shift)) for bowl in head.bowls if _hangs_on(bowl, before)]
    names = {name_of(bowl) for bowl, _ in hanging}
    bodies = [*jack_in_place(head), *(body for body in bowls_in_place(head) if body.name not in names)]
    radius, placed = bowl_radius(head.game), [new]
    bodies.append(Body(name_of(new), new.place, radius))
    for _, bowl in hanging[1:]:
        found = _with_room(head, bowl, bodies)
        if found is None or found.place is None:
            return refuse("no room beside it", Figures(bowl=name_of(bowl)))
        placed.append(found)
        bodies.append(Body(name_of(found), found.place, radius))
    return tuple(placed[1:])


def _last_placing(bowl: Bowl) -> int | None:
    """Which of a bowl's calls says where it lay, before any that says how far it went from there."""
    return next((at for at in range(len(bowl.calls) - 1, -1, -1) if not bowl.calls[at].by), None)


def _hangs_on(bowl: Bowl, other: Bowl) -> bool:
    at = _last_placing(bowl)
    landmark = None if at is None else bowl.calls[at].landmark
    return bowl.place is not None and bool(
        landmark and landmark.name == name_of(other) and landmark.calls == other.calls
    )


def _moved(bowl: Bowl, landmark: Bowl, shift: tuple[float, float]) -> Bowl:
    """The bowl so much further along, called from the landmark as that is known now."""
    at = _last_placing(bowl)
    assert at is not None
    assert bowl.place is not None
    call = bowl.calls[at]
    assert call.landmark is not None
    now = Landmark(
        name=name_of(landmark),
        right_m=call.landmark.right_m + shift[0],
        past_m=call.landmark.past_m + shift[1],
        calls=landmark.calls,
    )
    calls: tuple[Call, ...] = (
        *bowl.calls[:at],
        call.model_copy(update={"landmark": now}),
        *bowl.calls[at + 1 :],
    )
    return bowl.put_at(bowl.place.shifted(*shift)).model_copy(update={"calls": calls})


def _with_room(head: Head, bowl: Bowl, bodies: list[Body]) -> Bowl | None:
    """The bowl where it went along to, or as near as its doubt allows; None where there is no room."""
    assert bowl.place is not None
    radius = bowl_radius(head.game)
    if not blockers(bowl.place, radius, bodies):
        return bowl
    call = bowl.calls[-1]
    landmark = next((body for body in bodies if call.landmark and body.name == call.landmark.name), None)
    if call.by or landmark is None:
        return None
    spot = free_place(of_call(call, head.game.bowl_mm, head.game.jack_mm), landmark.place, radius, bodies)
    return None if isinstance(spot, list) else bowl.put_at(spot)
