"""A correction: of the last note, which is decided again, or of a bowl or the jack by name."""

from __future__ import annotations

from collections.abc import Callable

from voicecoach.head.bodies import find
from voicecoach.head.evolve import after, difference, standing
from voicecoach.head.merge import merged, two_distances
from voicecoach.head.order import next_up
from voicecoach.head.questions import Offer, ask, refuse
from voicecoach.head.rename import bowl_by_name
from voicecoach.head.retell import jack_by_name
from voicecoach.head.values import AskBack, Event, Figures, Play, Refused
from voicecoach.understand.values import (
    BowlName,
    BowlRested,
    Corrected,
    EndFinished,
    JackMoved,
    JackSet,
    Note,
    Where,
)

Decide = Callable[[Play, Note], Event | AskBack | Refused]


def corrected(play: Play, note: Corrected, decide: Decide) -> Event | AskBack | Refused:
    """What the correction does, as one event that taking back undoes as one."""
    last = play.note
    if note.target == "jack" and not isinstance(last, JackMoved | JackSet):
        return jack_by_name(play.head, note)
    if isinstance(note.target, BowlName):
        return bowl_by_name(play.head, note, note.target)
    if play.recalled is not None and note.target is None:
        return bowl_by_name(play.head, note, play.recalled)
    if last is None or play.base is None:
        return refuse("no last note")
    return _last_note(play, play.base, last, note, decide)


def scored_again(play: Play, note: EndFinished, decide: Decide) -> Event | AskBack | Refused:
    """Another score for the end that was just finished: it replaces the one noted."""
    if play.base is None or (note.shots is None and not note.replayed):
        return refuse("end scored already")
    base = standing(play.base, play.head)
    side = note.side or (getattr(play.note, "side", None) if note.shots else None)
    note = note.model_copy(update={"end": None, "side": side})
    decision = decide(base, note)
    return _in_its_place(play, base, decision, note) if isinstance(decision, Event) else decision


def _in_its_place(play: Play, base: Play, decision: Event, redone: Note) -> Event:
    """The event that leads from the head now to the one where the last note had been this one."""
    decision = decision.model_copy(update={"redone": redone})
    return difference(play.head, after(base.head, decision), decision)


def _last_note(
    play: Play, base: Play, last: Note, note: Corrected, decide: Decide
) -> Event | AskBack | Refused:
    """The last note, decided again; or what it was about, where it can't be."""
    if play.bowl and (isinstance(last, Corrected) or _elsewhere(play) or _lacks_a_gap(last, note)):
        return bowl_by_name(play.head, note, play.bowl)
    if isinstance(last, JackMoved | JackSet) and (note.side or note.number):
        return _whose_last_bowl(play, note)  # a jack belongs to nobody
    if isinstance(last, Corrected) or (isinstance(last, JackMoved) and _elsewhere(play)):
        return jack_by_name(play.head, note)
    return _again(play, standing(base, play.head), last, note, decide)


def _whose_last_bowl(play: Play, note: Corrected) -> Event | AskBack | Refused:
    """Whose it was, said after the jack moved: the last bowl is meant."""
    if not play.head.bowls:
        return refuse("no bowl to change")
    last = play.head.bowls[-1]
    return bowl_by_name(play.head, note, BowlName(side=last.side, number=last.number))


def _again(play: Play, base: Play, last: Note, note: Corrected, decide: Decide) -> Event | AskBack | Refused:
    """Decide the last note again where it was decided first, with the correction in it."""
    if _may_be_another(play, note):
        return _instead_or_another(play, note)
    redone = merged(last, note)
    if redone is None:
        return refuse("no part to change")
    if isinstance(redone, BowlRested) and (note.side or note.number) and redone.side and redone.number:
        name = BowlName(side=redone.side, number=redone.number)
        if find(base.head, name):
            return ask("number", "called already", note, figures=Figures(bowl=name))
    decision = decide(base, redone)
    if isinstance(decision, AskBack):
        return _as_correction(decision, note)
    if isinstance(decision, Refused):
        return decision
    target = play.bowl or ("jack" if isinstance(last, JackMoved | JackSet) else None)
    said = note.model_copy(update={"target": target})
    return _in_its_place(play, base, decision.model_copy(update={"note": said}), redone)


def _may_be_another(play: Play, note: Corrected) -> bool:
    """True for "sorry, their third, a metre, four o'clock": a whole note, of the bowl that is due.

    It may be the last bowl, called by a wrong name and in a wrong place; or the next one.
    """
    due, whole = next_up(play.head), note.gap_m is not None and (note.hour is not None or bool(note.remarks))
    named = (note.side, note.number) == (due.side, due.number)
    return whole and named and play.bowl is not None and not note.confirmed


def _instead_or_another(play: Play, note: Corrected) -> AskBack:
    assert play.bowl is not None
    fields = {name: getattr(note, name) for name in (*Where.model_fields, "side", "number")}
    offers: list[Offer] = [
        ("instead", note.model_copy(update={"confirmed": True})),
        ("another bowl", BowlRested(**fields)),
    ]
    return ask("choice", "instead or another", note, offers, Figures(bowl=play.bowl))


def _elsewhere(play: Play) -> bool:
    """Whether the caller has gone to another place since the last note was decided."""
    return play.base is not None and play.base.head.game.stood != play.head.game.stood


def _lacks_a_gap(last: Note, note: Corrected) -> bool:
    """Whether half of two distances is corrected by an hour or a gap: the other half is where it lies."""
    single = (note.hour is None) != (note.gap_m is None)
    return isinstance(last, BowlRested) and two_distances(last) and single


def _as_correction(asked: AskBack, note: Corrected) -> AskBack:
    """The same question with corrections for answers, so that the answer changes the last note too."""
    choices: list[Note] = []
    for choice in asked.choices:
        if isinstance(choice, Where) and choice.kind == asked.pending.kind:
            where = {field: getattr(choice, field) for field in Where.model_fields}
            confirmed = bool(getattr(choice, "confirmed", False))
            choices.append(note.model_copy(update={**where, "confirmed": confirmed}))
        else:
            choices.append(choice)
    return asked.model_copy(update={"pending": note, "choices": tuple(choices)})
