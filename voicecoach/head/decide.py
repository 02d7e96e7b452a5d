"""The rules' front door: what each kind of note does to the play, as an event, a question or a refusal."""

from collections.abc import Callable
from typing import Any

from voicecoach.head.aim import aim
from voicecoach.head.correct import corrected, scored_again
from voicecoach.head.ends import finished, started
from voicecoach.head.game import game_set, setting
from voicecoach.head.jack import jack_moved, jack_set
from voicecoach.head.moved import moved
from voicecoach.head.questions import refuse
from voicecoach.head.rest import rested
from voicecoach.head.tape import measured
from voicecoach.head.values import Ask, Event, Head, Play, Refused
from voicecoach.understand.values import Corrected, Declined, EndFinished, Note, TakenBack

Decision = Event | Ask | Refused

_RULES: dict[str, Callable[[Head, Any], Decision]] = {
    "bowl_rested": rested,
    "bowl_moved": moved,
    "jack_set": jack_set,
    "jack_moved": jack_moved,
    "end_started": started,
    "end_finished": finished,
    "game_set": game_set,
    "measured": measured,
    "setting": setting,
    "aim": aim,
}
"""The rule for each kind of note that goes by the head alone; any other kind only asks to hear something."""


def decide(play: Play, note: Note) -> Decision:
    """What the note does to the play; nothing is changed by asking."""
    if isinstance(note, TakenBack):
        return _taken_back(play, note)
    if isinstance(note, EndFinished) and isinstance(play.note, EndFinished) and play.head.finished:
        return scored_again(play, note, decide)
    if isinstance(note, Corrected):
        return corrected(play, note, decide)
    if isinstance(note, Declined):
        return refuse("declined")
    rule = _RULES.get(note.kind)
    return rule(play.head, note) if rule else Event(note=note)


def _taken_back(play: Play, note: TakenBack) -> Event | Refused:
    if play.before is None:
        return refuse("nothing to take back")
    return Event(note=note, bowl=play.bowl, undoes=True)
