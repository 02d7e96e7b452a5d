"""The green's pace and the player's line, set or timed by voice: they belong to the game."""

from voicecoach.head.pace import LONGEST_S, PACE_AT_M, SHORTEST_S, angle_of_aim, at_27_m
from voicecoach.head.questions import refuse
from voicecoach.head.values import HANDS, Bowling, Event, Head, Line, Refused, Tally
from voicecoach.understand.notes.line_settings import GreenPace, LineTold, OnHand, Timed

NARROWEST_DEG, WIDEST_DEG = 1.0, 30.0
"""No bowl on a green bends less, and none more (working values, our own choice): it was misheard."""
BowlingSetting = GreenPace | Timed | LineTold | OnHand


def bowling_set(head: Head, note: BowlingSetting) -> Event | Refused:
    """What was said of the green's pace or of the player's line, kept with the game."""
    bowling = _set(head, note)
    if isinstance(bowling, Refused):
        return bowling
    return Event(note=note, game=head.game.model_copy(update={"bowling": bowling}))


def _set(head: Head, note: BowlingSetting) -> Bowling | Refused:
    now = head.game.bowling
    if isinstance(note, OnHand):
        return now.model_copy(update={"on_hand": note.value})
    if isinstance(note, LineTold):
        return _line(head, note)
    seconds = note.value
    if isinstance(note, Timed) and seconds is not None:
        seconds = at_27_m(seconds, _length(head))
    if seconds is None:
        return refuse("nothing timed")
    if not SHORTEST_S <= seconds <= LONGEST_S:
        return refuse("no such pace")
    if isinstance(note, GreenPace):
        return now.model_copy(update={"pace_s": seconds, "timed": Tally()})
    return now.model_copy(update={"timed": now.timed.with_figure(seconds)})


def _length(head: Head) -> float:
    """How far a timed bowl ran: to about where the jack lies, or lay last."""
    place = head.jack.lay
    return place.y_m if place is not None and place.y_m > 0 else PACE_AT_M


def _line(head: Head, note: LineTold) -> Bowling | Refused:
    """The line of one hand, or of both where none was named; one named alone is the one now played."""
    angle_deg = note.angle_deg
    if angle_deg is None and note.aside_m is not None:
        angle_deg = angle_of_aim(note.aside_m, note.at_m or head.game.aim_at_m)
    if angle_deg is None or not NARROWEST_DEG <= angle_deg <= WIDEST_DEG:
        return refuse("no such line")
    bowling = head.game.bowling
    for hand in HANDS:
        if note.hand in (None, hand):
            bowling = bowling.with_line(hand, Line(angle_deg=angle_deg))
    return bowling.model_copy(update={"on_hand": note.hand or bowling.on_hand})
