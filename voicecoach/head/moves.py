"""What a move of the jack does: the face goes with it, and every bowl is spoken of anew."""

from voicecoach.head.values import Bowl, Event, Head, Jack, JackMove
from voicecoach.understand.values import JackMoved, JackSet

Step = tuple[float, float]


def moved_event(head: Head, note: JackMoved | JackSet, call: JackMove, spot: Step) -> Event:
    """The event of a jack that now lies at `spot`."""
    lay = head.jack.last or jack_place(head)
    move = call.model_copy(update={"dx_m": spot[0] - lay[0], "dy_m": spot[1] - lay[1]})
    ditch = isinstance(note, JackMoved) and "in the ditch" in note.remarks
    return Event(
        note=note,
        jack=Jack(x_m=spot[0], y_m=spot[1], state="ditch" if ditch else "live", called=head.jack.called),
        jack_moves=(*head.jack_moves, move),
        bowls=tuple(bowl.model_copy(update={"as_called": False}) for bowl in lying(head) if bowl.as_called),
        law="18.1" if ditch else None,
    )


def jack_place(head: Head) -> Step:
    """The jack's centre."""
    return head.jack.x_m or 0.0, head.jack.y_m or 0.0


def lying(head: Head) -> list[Bowl]:
    """Every bowl that has a place."""
    return [bowl for bowl in head.bowls if bowl.x_m is not None]


def shifted(bowl: Bowl, by: Step) -> Bowl:
    """The bowl so much further right and past."""
    return bowl.model_copy(update={"x_m": (bowl.x_m or 0.0) + by[0], "y_m": (bowl.y_m or 0.0) + by[1]})
