"""Confirmations: what was filed, said back in a few words."""

from typing import Literal, get_args

from voicecoach.describe.beside import beside_words
from voicecoach.describe.bowls import Style, bowl_name, find, is_as_called, place_words
from voicecoach.describe.called import called_words
from voicecoach.describe.confirming_game import (
    aim_words,
    end_finished,
    end_started,
    game_words,
    length_words,
    measured_words,
    score_words,
)
from voicecoach.describe.distances import can_be_called
from voicecoach.describe.reasons import fact_words
from voicecoach.describe.setting import confirm_set
from voicecoach.describe.values import Preferences, Sentence, Sentences
from voicecoach.head.values import Event, Fact, Head, Lie, Picture
from voicecoach.phrasebook.numbers import cardinal
from voicecoach.phrasebook.wording import capitals, sentence, words
from voicecoach.understand.notes.any_setting import AnySetting
from voicecoach.understand.notes.asking import Aim, Question, Walk
from voicecoach.understand.notes.bowls import BowlMoved, BowlRested
from voicecoach.understand.notes.corrections import AboutABowl, Corrected, Declined, TakenBack
from voicecoach.understand.notes.ends import EndFinished, EndStarted, GameSet, Measured, ScoreTold
from voicecoach.understand.notes.jack import JackMoved, JackSet
from voicecoach.understand.notes.lines import LineAsked, WhatIf
from voicecoach.understand.values import BowlName, Note, Remark, Where
from voicecoach.value import assert_never

CONFIRMED_WITHIN_S = 2.5
_MAY_BE_LONG = (Aim, GameSet)
"""An answer, and a note of many parts that are all said back: neither is hurried. Nor is a place
from another bowl."""

_ONLY_MARKED = {"toucher", "not a toucher", "live"}


def confirm(event: Event, before: Picture, after: Picture, prefs: Preferences) -> Sentences:
    """The confirmation of an event, then what else is worth saying about it."""
    beside = isinstance(event.note, Where) and event.note.landmark is not None
    within_s = None if beside or isinstance(event.note, _MAY_BE_LONG) else CONFIRMED_WITHIN_S
    text = _text(event, before, after, prefs)
    return (
        *((Sentence(text=text, about=event.bowl, within_s=within_s),) if text else ()),
        *(Sentence(text=_remark(fact, prefs)) for fact in event.remarks if not _is_said(fact, event.note)),
    )


def _text(event: Event, before: Picture, after: Picture, prefs: Preferences) -> str:  # noqa: C901, PLR0911
    """What is said of each kind of note; nothing of one that is answered in place of being confirmed."""
    note = event.note
    match note:
        case BowlRested() | BowlMoved() | Corrected():
            return _bowl_text(event, note, after, prefs)
        case JackSet() | JackMoved():
            return _jack_text(note, after)
        case TakenBack():
            return _taken_back_text(before, after, prefs)
        case GameSet():
            return game_words(note, prefs)
        case EndStarted():
            return end_started(after, prefs)
        case EndFinished():
            return end_finished(note, after.head, prefs)
        case ScoreTold():
            return sentence("score.plain", score=score_words(after.head.score, prefs))
        case Measured():
            return measured_words(note, event, after, prefs)
        case Aim():
            return "" if event.aim is None else aim_words(event.aim, prefs)
        case AnySetting():
            return " ".join(each.text for each in confirm_set(event, note, prefs))
        case Question() | LineAsked() | WhatIf() | Walk() | Declined():
            return ""
        case _:
            return assert_never(note)


def _bowl_text(event: Event, note: AboutABowl, after: Picture, prefs: Preferences) -> str:
    if isinstance(note, BowlMoved) and note.scattered:
        return sentence("confirm.scattered")
    if isinstance(event.redone, EndFinished):
        return end_finished(event.redone, after.head, prefs)
    if event.bowl is None:
        return sentence("confirm.jack corrected", move=_jack_move(note, after))
    name = bowl_name(event.bowl.side, event.bowl.number, prefs)
    lie = find(after, event.bowl)
    told = event.redone if isinstance(event.redone, BowlRested | BowlMoved) else note
    if told.landmark is not None and lie is not None and lie.gap_m is not None:
        return sentence("confirm.rested", name=name, place=_beside(told, told.landmark, lie, after, prefs))
    if isinstance(note, BowlRested):
        key, place = "confirm.rested", _called(_as_lies(_mats(note, after), lie), after)
    elif isinstance(note, BowlMoved):
        key, place = _moved_key(note), _called(_mats(note, after), after)
    else:
        key, place = "confirm.corrected", _filed(lie, after, prefs)
    if lie is not None and lie.state == "dead":
        place = _with_death(place)
    return sentence(key, name=name, place=place) if place else sentence("confirm.bare", name=name)


def _beside(note: Where, landmark: BowlName, lie: Lie, after: Picture, prefs: Preferences) -> str:
    """The place as called from another bowl, and the place from the jack that it came to."""
    other = bowl_name(landmark.side, landmark.number, prefs)
    said = beside_words(_mats(note, after), other, after.head.game.bowl_mm / 1000)
    return words("beside.filed", said=said, place=place_words(lie, after, prefs, Style("full")))


def _moved_key(note: BowlMoved) -> str:
    """How far it went, and where it lies now, are told apart; one only told to be a toucher hasn't moved."""
    if note.by:
        return "confirm.moved by"
    marked = note.gap_m is None and note.hour is None and not _ONLY_MARKED.isdisjoint(note.remarks)
    if marked and set(note.remarks) <= {*_ONLY_MARKED, "in the ditch"}:
        return "confirm.rested"
    return "confirm.moved to" if note.gap_m or note.along_m is not None else "confirm.moved"


def _with_death(place: str) -> str:
    """A dead bowl's place with the word dead, where it wasn't called so."""
    joint, dead = words("called.joint"), words("remark.dead")
    return place if dead in place.split(joint) else joint.join(part for part in (place, dead) if part)


def _mats(note: Where, after: Picture) -> Where:
    """The note as seen from the mat: a caller at the head is confirmed in the frame that both ears share."""
    return note.turned() if after.head.game.stood == "head" else note


def _as_lies(note: Where, lie: Lie | None) -> Where:
    """The note with the hour as filed."""
    if note.hour is None or lie is None or lie.hour is None:
        return note
    return note.model_copy(update={"hour": lie.hour})


def _filed(lie: Lie | None, after: Picture, prefs: Preferences) -> str:
    """A bowl's place as it stands filed: as called where it still is."""
    if lie is None:
        return ""
    if lie.said is None or not is_as_called(lie, after) or _is_worked_out(lie, after):
        return place_words(lie, after, prefs, Style("one word where it helps"))
    said = {
        "gap_m": lie.said.gap_m,
        "unit": lie.said.unit,
        "hour": None if lie.said.hour is None else lie.hour,
        "hour_width": 1.0 if lie.sure == "between" else 0.5,
        "remarks": [remark for remark in lie.said.remarks if remark in get_args(Remark)],
    }
    where = Where.model_validate(said)
    bowl = next(bowl for bowl in after.head.bowls if (bowl.side, bowl.number) == (lie.side, lie.number))
    if bowl.calls and bowl.calls[-1].stood == "head":
        where = where.model_copy(update={"remarks": where.turned().remarks})
    return _called(where, after)


def _is_worked_out(lie: Lie, after: Picture) -> bool:
    """True where a correction kept the gap that the bowl had come to: nobody called or taped that one."""
    gap_m = lie.said.gap_m if lie.said else None
    bowl_m = after.head.game.bowl_mm / 1000
    return gap_m is not None and not (lie.measured or can_be_called(gap_m, lie.unit, bowl_m))


def _called(where: Where, after: Picture) -> str:
    return called_words(where, after.head.game.bowl_mm / 1000)


def _jack_text(note: JackSet | JackMoved, after: Picture) -> str:
    if note.length_m is not None:
        key = "confirm.jack set" if isinstance(note, JackSet) else "confirm.jack now"
        return sentence(key, length=length_words(note.length_m))
    if isinstance(note, JackSet):
        return sentence("confirm.jack set bare")
    move = _jack_move(note, after)
    if note.gap_m is None:
        return sentence("confirm.jack became", move=move) if move else sentence("confirm.jack moved bare")
    return sentence("confirm.jack moved", move=move)


def _jack_move(note: Where, after: Picture) -> str:
    """How far and which way the jack went; into the ditch without a distance, straight back."""
    if note.gap_m is None and {"in the ditch", "past"} == set(note.remarks):
        return words("confirm.straight into the ditch")
    return _called(_mats(note, after), after)


def _taken_back_text(before: Picture, after: Picture, prefs: Preferences) -> str:
    """What the note taken back had done, by what differs: the bowl that is gone, or what stands again."""
    same_end = (before.head.end, before.head.finished) == (after.head.end, after.head.finished)
    if not same_end or before.head.score != after.head.score:
        score = capitals(score_words(after.head.score, prefs))
        key = "confirm.taken back.score" if same_end else "confirm.taken back.end"
        return sentence(key, end=cardinal(after.head.end), score=score)
    undone = [pair for pair in before.head.nearer if pair not in after.head.nearer]
    if undone:
        name, other = (bowl_name(each.side, each.number, prefs) for each in undone[-1])
        return sentence("confirm.taken back.nearer", name=name, other=other)
    gone, returned = _without(before, after), _without(after, before)
    if len(gone) == 1 and not returned:
        return sentence("confirm.taken back.bowl", name=bowl_name(gone[0].side, gone[0].number, prefs))
    again = returned or _changed(before, after)
    if len(again) == 1:
        name = bowl_name(again[0].side, again[0].number, prefs)
        return sentence("confirm.taken back.change", name=name, place=_filed(again[0], after, prefs))
    if again:
        return sentence("confirm.taken back.many")
    what = "jack" if before.head.jack != after.head.jack else _setting_undone(before.head, after.head)
    return sentence(f"confirm.taken back.{what}")


def _setting_undone(before: Head, after: Head) -> Literal["game", "other"]:
    """How the game is played, or nothing that has words of its own."""
    now = after.game
    caller = {"stood": now.stood, "eye": now.eye, "aim_at_m": now.aim_at_m, "bowling": now.bowling}
    return "game" if before.game.model_copy(update=caller) != after.game else "other"


def _without(some: Picture, others: Picture) -> list[Lie]:
    """The bowls of `some` that `others` lacks."""
    return [lie for lie in some.lies if find(others, BowlName(side=lie.side, number=lie.number)) is None]


def _changed(before: Picture, after: Picture) -> list[Lie]:
    """The bowls that lie otherwise, as they lie after; those called otherwise, where there are any."""
    pairs = [(find(before, BowlName(side=lie.side, number=lie.number)), lie) for lie in after.lies]
    called = [now for was, now in pairs if was is not None and was.said != now.said]
    if called or before.head.jack != after.head.jack:
        return called
    return [now for was, now in pairs if was != now]


def _is_said(fact: Fact, note: Note) -> bool:
    """True for a fact that the confirmation itself says: a jack that was called back on its spot."""
    return isinstance(note, JackMoved) and note.length_m is None and fact in note.remarks


def _remark(fact: Fact, prefs: Preferences) -> str:
    """A fact worth saying as a sentence."""
    return sentence("whole", text=fact_words(fact, prefs).rstrip("."))
