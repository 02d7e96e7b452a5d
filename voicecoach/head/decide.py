"""The rules' front door: what each kind of note does to the play, as an event, a question or a refusal."""

from voicecoach.head.correct import corrected
from voicecoach.head.jack import jack_moved, jack_set
from voicecoach.head.questions import refuse
from voicecoach.head.rest import rested
from voicecoach.head.values import Ask, Event, Play, Refused
from voicecoach.understand.values import (
    BowlRested,
    Corrected,
    JackMoved,
    JackSet,
    Note,
    Question,
    TakenBack,
    Walk,
)


def decide(play: Play, note: Note) -> Event | Ask | Refused:
    """What the note does to the play; nothing is changed by asking."""
    head = play.head
    match note:
        case BowlRested():
            return rested(head, note)
        case JackSet():
            return jack_set(head, note)
        case JackMoved():
            return jack_moved(head, note)
        case Corrected():
            return corrected(play, note, decide)
        case TakenBack():
            return _taken_back(play, note)
        case Question() | Walk():
            return Event(note=note)
    return refuse("Not filed.")


def _taken_back(play: Play, note: TakenBack) -> Event | Refused:
    if play.before is None:
        return refuse("There is nothing to take back.")
    return Event(note=note, bowl=play.bowl, undoes=True)
