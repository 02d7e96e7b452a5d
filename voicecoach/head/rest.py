"""A bowl comes to rest: whose it is, whether it lives, where it lies."""

from voicecoach.head.bodies import find
from voicecoach.head.filing import called
from voicecoach.head.lives import law_of_death, touched, with_life
from voicecoach.head.order import bowls_a_side, next_number, next_up, other
from voicecoach.head.questions import Offer, ask, ask_its_name, ask_whether, refuse
from voicecoach.head.second import second_note
from voicecoach.head.values import AskBack, Bowl, Event, Figures, Head, Refused
from voicecoach.understand.notes.bowls import is_nameless
from voicecoach.understand.values import BowlName, BowlRested, Side


def rested(head: Head, note: BowlRested) -> Event | AskBack | Refused:
    """File a bowl at rest, or take the note as a second one about a bowl that lies already."""
    if head.finished:
        return refuse("end over")
    name = _name(head, note)
    if not isinstance(name, BowlName):
        return name
    lying = find(head, name)
    if lying is not None:
        return second_note(head, lying, note)
    blank = Bowl(
        side=name.side, number=name.number, x_m=None, y_m=None, said=called(note), toucher=touched(head, note)
    )
    named = note.model_copy(update={"side": name.side, "number": name.number}) if note.landmark else note
    bowl = with_life(head, blank, named)
    if not isinstance(bowl, Bowl):
        return bowl
    return (
        ask_its_name(name, note, named)
        if note.landmark and is_nameless(note)
        else _filed(head, name, bowl, note)
    )


def _filed(head: Head, name: BowlName, bowl: Bowl, note: BowlRested) -> Event:
    """The event; a bowl of a scattered head that is called again doesn't change whose turn it is."""
    again = name in head.scattered
    return Event(
        note=note,
        bowl=name,
        bowls=(bowl,),
        last_side=None if again else name.side,
        scattered=tuple(left for left in head.scattered if left != name) if again else None,
        law=law_of_death(bowl),
    )


def _name(head: Head, note: BowlRested) -> BowlName | AskBack | Refused:
    """Whose bowl the note means."""
    side = note.side or _whose(head, note)
    number = next_number(head, side) if note.number is None else note.number
    if number < 1:
        return refuse("number under one")
    name = BowlName(side=side, number=number)
    if number <= bowls_a_side(head.game) or note.confirmed or find(head, name):
        return name
    return _too_many(head, name, note)


def _whose(head: Head, note: BowlRested) -> Side:
    """Whose a bowl is that was named without its side: by its number, where only one side's fits.

    "Bowl one" and then "bowl two" are one side's, though the other side's bowl may come between them.
    """
    due = next_up(head).side
    if note.number is None or head.scattered:
        return due
    fits = [side for side in (due, other(due)) if next_number(head, side) == note.number]
    return fits[0] if fits else due


def _too_many(head: Head, name: BowlName, note: BowlRested) -> AskBack:
    """AskBack whose it is, where the other side has bowls left, or else whether to take it at all."""
    most = bowls_a_side(head.game)
    figures = Figures(format=head.game.format, count=most, bowl=name)
    rest = other(name.side)
    if note.number is not None or next_number(head, rest) > most:
        return ask_whether("too many bowls", note, figures)
    taken = note.model_copy(update={"side": name.side, "confirmed": True})
    offers: list[Offer] = [(rest, note.model_copy(update={"side": rest})), (name.side, taken)]
    return ask("side", "which side over", note, offers, figures)
