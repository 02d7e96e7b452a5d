"""The rules' front door: what each kind of note does to the play, as an event, a question or a refusal."""

from voicecoach.head.aim import aim
from voicecoach.head.bounds import with_what_was_agreed
from voicecoach.head.correct import corrected, scored_again
from voicecoach.head.ends import finished, scored_earlier, started
from voicecoach.head.game import game_set, setting
from voicecoach.head.jack import jack_moved, jack_set
from voicecoach.head.learning import with_what_it_shows
from voicecoach.head.moved import moved
from voicecoach.head.questions import refuse
from voicecoach.head.rest import rested
from voicecoach.head.tape import measured
from voicecoach.head.total import score_told
from voicecoach.head.values import AskBack, Event, Play, Refused
from voicecoach.understand.notes.any_setting import AnySetting
from voicecoach.understand.notes.asking import Aim, Question, Walk
from voicecoach.understand.notes.bowls import BowlMoved, BowlRested
from voicecoach.understand.notes.corrections import Corrected, Declined, TakenBack
from voicecoach.understand.notes.ends import EndFinished, EndStarted, GameSet, Measured, ScoreTold
from voicecoach.understand.notes.jack import JackMoved, JackSet
from voicecoach.understand.notes.lines import LineAsked, WhatIf
from voicecoach.understand.values import Note
from voicecoach.value import assert_never

Decision = Event | AskBack | Refused


def decide(play: Play, note: Note) -> Decision:
    """What the note does to the play; nothing is changed by asking."""
    decision = _decided(play, note)
    if not isinstance(decision, Event):
        return decision
    return with_what_was_agreed(play.head, with_what_it_shows(play.head, decision))


def _decided(play: Play, note: Note) -> Decision:  # noqa: C901, PLR0911, PLR0912 - one line for each kind
    head = play.head
    match note:
        case BowlRested():
            return rested(head, note)
        case BowlMoved():
            return moved(head, note)
        case JackSet():
            return jack_set(head, note)
        case JackMoved():
            return jack_moved(head, note)
        case TakenBack():
            return _taken_back(play, note)
        case Corrected():
            return corrected(play, note, decide)
        case Declined():
            return refuse("declined")
        case EndStarted():
            return started(head, note)
        case EndFinished():
            if note.is_of(head.end) and head.finished and isinstance(play.note, EndFinished):
                return scored_again(play, note, decide)
            return finished(head, note) if note.is_of(head.end) else scored_earlier(head, note)
        case ScoreTold():
            return score_told(head, note)
        case GameSet():
            return game_set(head, note)
        case Measured():
            return measured(head, note)
        case Aim():
            return aim(head, note)
        case AnySetting():
            return setting(head, note)
        case Question() | LineAsked() | WhatIf() | Walk():
            return Event(note=note)  # it only asks to hear something
        case _:
            return assert_never(note)


def _taken_back(play: Play, note: TakenBack) -> Event | Refused:
    if play.before is None:
        return refuse("nothing to take back")
    return Event(note=note, bowl=play.bowl, undoes=True)
