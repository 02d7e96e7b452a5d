"""The jack's last move told anew, with bowls called since: those go along with it, the others stay."""

from collections.abc import Sequence

from voicecoach.head.blend import of_move, placed
from voicecoach.head.bodies import Body, PlacedBowl, bowl_radius, bowls_in_place, jack_radius, lying
from voicecoach.head.estimate import of_call, origin_of
from voicecoach.head.jack import jack_moved, jack_set
from voicecoach.head.merge import is_a_length, merged_where
from voicecoach.head.questions import ask, ask_missing, refuse
from voicecoach.head.room import blockers, free_place
from voicecoach.head.settle import Missing, settled
from voicecoach.head.values import AskBack, Bowl, Call, Event, Head, JackMove, Point, Refused
from voicecoach.understand.values import DIRECTIONS, Corrected, JackMoved, JackSet, Where


def jack_by_name(head: Head, note: Corrected) -> Event | AskBack | Refused:
    """Change how the jack moved last, or how it was set where it hasn't moved."""
    note = note.model_copy(update={"target": "jack"})
    told = _told(head, note)
    if told is not None:
        return jack_moved(head, told)
    if not head.jack_moves:
        return _set_anew(head, note)
    move = head.jack_moves[-1]
    if head.jack.place is None or placed(move):
        return refuse("jack placed by hand")
    from_the_mat = head.model_copy(update={"game": head.game.model_copy(update={"stood": "mat"})})
    said = settled(note.model_copy(update={"gap_m": note.gap_m or 0.0}), head.game, None)
    if isinstance(said, Missing) and note.gap_m is None:
        return ask_missing(said, note)
    turned = note if isinstance(said, Missing) else note.model_copy(update={"hour": said.hour, "remarks": ()})
    now = move.where
    where = settled(now.model_copy(update=merged_where(now, turned)), from_the_mat.game, None)
    if isinstance(where, Missing):
        return ask_missing(where, note)
    return _moved_anew(head, head.jack.place, note, move.model_copy(update={"where": where}))


def _told(head: Head, note: Corrected) -> JackMoved | None:
    """The move that is only now told: the first one, the jack's length, or what became of it."""
    if head.jack_moves and is_a_length(note):
        return JackMoved(length_m=note.gap_m, confirmed=note.confirmed)
    fate = bool({"in the ditch", "dead", "out of the rink"} & set(note.remarks))
    directed = note.hour is not None or not set(DIRECTIONS).isdisjoint(note.remarks)
    if not fate and (head.jack_moves or not directed):
        return None
    fields = {field: getattr(note, field) for field in Where.model_fields}
    return JackMoved(**fields, confirmed=note.confirmed)


def _set_anew(head: Head, note: Corrected) -> Event | AskBack | Refused:
    if note.gap_m is None:
        return refuse("jack not moved")
    decision = jack_set(head, JackSet(length_m=note.gap_m, confirmed=note.confirmed))
    if isinstance(decision, Event):
        return decision.model_copy(update={"note": note})
    if isinstance(decision, AskBack):
        return decision.model_copy(update={"pending": note})
    return decision


def _moved_anew(head: Head, jack: Point, note: Corrected, move: JackMove) -> Event | AskBack | Refused:
    """Put the jack where the move now takes it, and the bowls called since with it."""
    old = head.jack_moves[-1]
    since = [lies for lies in lying(head) if _since(head, lies.bowl)]
    names = {(lies.bowl.side, lies.bowl.number) for lies in since}
    staying = [b for b in bowls_in_place(head) if b.name and (b.name.side, b.name.number) not in names]
    spot = free_place(of_move(move), jack.shifted(-old.dx_m, -old.dy_m), jack_radius(head.game), staying)
    if isinstance(spot, list):
        return ask("hour", "bowl in the way of the jack", note)
    shift = spot.seen_from(jack)
    followed = _followed(head, since, shift, [*staying, Body(None, spot, jack_radius(head.game))])
    if followed is None:
        return refuse("no room for followers")
    moved = move.model_copy(update={"dx_m": old.dx_m + shift[0], "dy_m": old.dy_m + shift[1]})
    return Event(
        note=note,
        jack=head.jack.put_at(spot),
        jack_moves=(*head.jack_moves[:-1], moved),
        bowls=tuple(followed),
    )


def _since(head: Head, bowl: Bowl) -> bool:
    """Whether the bowl was called from the jack where it lies now, or from a bowl that was."""
    return _goes_along(bowl.calls, len(head.jack_moves))


def _goes_along(calls: Sequence[Call], jack_moves: int) -> bool:
    placed_it = [call for call in calls if not call.by]
    if placed_it and placed_it[-1].landmark:
        return _goes_along(placed_it[-1].landmark.calls, jack_moves)
    return bool(placed_it) and placed_it[-1].jack_moves == jack_moves


def _followed(
    head: Head, bowls: list[PlacedBowl], shift: tuple[float, float], bodies: list[Body]
) -> list[Bowl] | None:
    """The bowls moved along, each given room among what lies there now; None where there is none."""
    found: list[Bowl] = []
    radius = bowl_radius(head.game)
    jack = bodies[-1].place
    for bowl, place in bowls:
        moved = place.shifted(*shift)
        point: Point | list[Body] = moved
        if blockers(moved, radius, bodies):
            called = of_call(bowl.calls[-1], head.game.bowl_mm, head.game.jack_mm)
            point = free_place(called, origin_of(bowl.calls[-1], jack), radius, bodies)
        if isinstance(point, list):
            return None
        bodies = [*bodies, Body(None, point, radius)]
        found.append(bowl.put_at(point))
    return found
