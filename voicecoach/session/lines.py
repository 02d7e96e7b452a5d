"""Questions about the player's lines: the head looks, and its look is told. Nothing is filed."""

from __future__ import annotations

from voicecoach import describe
from voicecoach.describe.values import Sentences
from voicecoach.head import lines, picture
from voicecoach.head.values import AskBack, Hands, Head, Play, Refused
from voicecoach.session.talk import Talk
from voicecoach.understand.notes.lines import LineNote
from voicecoach.understand.values import BowlName, JackMoved, LineAsked, Note, WhatIf, Where


def told(talk: Talk, note: LineNote) -> Sentences:
    """What is said to a question about the lines, or about what might be."""
    return _what_if(talk, note) if isinstance(note, WhatIf) else _answer(talk, note)


def _answer(talk: Talk, question: LineAsked) -> Sentences:
    """The answer to a question about the hands, where they turn, the weight, or the last miss."""
    head, prefs = talk.play.head, talk.manner.prefs
    target = lines.target_of(head, question)
    if question.ask == "miss":
        said = describe.miss_answer(lines.miss(head), prefs)
    elif target is None:
        said = describe.no_target()
    elif question.ask == "turning":
        said = describe.turning_answer(lines.turning(head, target, question.hand), prefs)
    elif question.ask == "angle":
        said = describe.angle_answer(lines.turning(head, target, question.hand))
    elif question.ask == "weight":
        said = describe.weight_answer(lines.weight(head, target), prefs)
    elif question.ask == "speed":
        said = describe.speed_answer(lines.weight(head, target), prefs)
    else:
        said = describe.hands_answer(lines.hands(head, target, question.hand), picture(head), prefs)
    return said


def hands_of(head: Head, note: Note | None) -> Hands | None:
    """What a question about the hands looked at; None for any other note, and without a target."""
    if not isinstance(note, LineAsked) or note.ask != "hands":
        return None
    target = lines.target_of(head, note)
    return lines.hands(head, target, note.hand) if target else None


def after_my_turn(talk: Talk) -> Sentences:
    """One sentence about the hands, where the player wants it."""
    head = talk.play.head
    target = lines.target_of(head, LineAsked(ask="hands"))
    if not talk.manner.prefs.hands or target is None:
        return ()
    return (describe.hands_sentence(lines.hands(head, target), picture(head), talk.manner.prefs),)


def _what_if(talk: Talk, note: WhatIf) -> Sentences:
    """How the head would look."""
    prefs = talk.manner.prefs
    if note.jack:
        return _with_jack_moved(talk.play, note, talk)
    name = _taken_away(talk, note)
    if isinstance(name, Refused):
        return describe.refuse(name)
    return describe.without_answer(name, lines.without(talk.play.head, name), prefs)


def _with_jack_moved(play: Play, note: WhatIf, talk: Talk) -> Sentences:
    where = {field: getattr(note, field) for field in Where.model_fields}
    looked = lines.with_jack_moved(play, JackMoved(length_m=note.length_m, confirmed=True, **where))
    if isinstance(looked, Refused):
        return describe.refuse(looked)
    if isinstance(looked, AskBack):
        return describe.ask(describe.opened(looked), looked.law)
    return describe.jack_answer(note, looked, talk.manner.prefs)


def _taken_away(talk: Talk, note: WhatIf) -> BowlName | Refused:
    """The bowl that is meant: as named, or the one spoken of last, or the shot bowl."""
    spoken_of = next((each.about for each in reversed(talk.said) if each.about), None)
    return lines.meant(talk.play.head, note, spoken_of)
