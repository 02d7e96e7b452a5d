"""What a move of the jack does: the face goes with it, and every bowl is spoken of anew."""

from voicecoach.head.bodies import PlacedBowl, lying
from voicecoach.head.values import Bowl, Event, Head, Jack, JackMove, Point
from voicecoach.understand.values import JackMoved, JackSet


def moved_event(head: Head, note: JackMoved | JackSet, call: JackMove, spot: Point) -> Event:
    """The event of a jack that now lies at `spot`."""
    dx_m, dy_m = spot.seen_from(head.jack.lay or spot)
    move = call.model_copy(update={"dx_m": dx_m, "dy_m": dy_m})
    ditch = isinstance(note, JackMoved) and "in the ditch" in note.remarks
    return Event(
        note=note,
        jack=Jack(x_m=spot.x_m, y_m=spot.y_m, state="ditch" if ditch else "live", called=head.jack.called),
        jack_moves=(*head.jack_moves, move),
        bowls=tuple(
            bowl.model_copy(update={"as_called": False}) for bowl, _ in lying(head) if bowl.as_called
        ),
        law="18.1" if ditch else None,
    )


def shifted(lies: PlacedBowl, by: tuple[float, float]) -> Bowl:
    """The bowl so much further right and past."""
    return lies.bowl.put_at(lies.place.shifted(*by))
