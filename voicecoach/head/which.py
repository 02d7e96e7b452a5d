"""Which bowl a note means that speaks of one that lies: by its name, or by what leaves only one."""

from voicecoach.head.bodies import find, name_of
from voicecoach.head.questions import Offer, ask, refuse
from voicecoach.head.values import AskBack, Bowl, Head, Refused
from voicecoach.understand.notes.settings import Remarked
from voicecoach.understand.values import BowlMoved, BowlName, Measured

AboutOne = BowlMoved | Measured | Remarked


def which(head: Head, note: AboutOne) -> Bowl | BowlName | AskBack | Refused:
    """The bowl meant; its bare name where no such bowl was called yet."""
    if note.side is not None and note.number is not None:
        name = BowlName(side=note.side, number=note.number)
        return find(head, name) or name
    meant = [
        bowl
        for bowl in head.bowls
        if (note.side is None or bowl.side == note.side)
        and (bowl.number == note.number if note.number is not None else bowl.state != "dead")
    ]
    if len(meant) == 1:
        return meant[0]
    if not meant:
        return refuse("no such bowl")
    offers: list[Offer] = [(name_of(bowl), _named(note, bowl)) for bowl in meant]
    if note.number is not None:
        return ask("side", "one of these", note, offers)
    return ask("number", "which bowl", note, offers)


def _named(note: AboutOne, bowl: Bowl) -> AboutOne:
    return note.model_copy(update={"side": bowl.side, "number": bowl.number})
