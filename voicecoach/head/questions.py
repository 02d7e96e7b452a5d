"""The head's questions back and refusals, as values: `describe` has the words."""

from collections.abc import Sequence
from typing import Literal

from voicecoach.head.settle import Missing
from voicecoach.head.values import Answer, AskBack, Asked, Breach, Figures, Refusal, Refused
from voicecoach.understand.notes.bowls import BowlNote
from voicecoach.understand.values import BowlMoved, BowlName, JackMoved, Note, Slot, Where

Offer = tuple[Answer, Note]
"""What an answer means, and the note that it makes."""
_FOR_A_BOWL: dict[str, Asked] = {
    "gap": "bowl distance",
    "hour": "bowl hour",
    "left or right": "bowl left or right",
}
_FROM_A_BOWL: dict[str, Asked] = {
    "gap": "distance from a bowl",
    "hour": "side of a bowl",
    "left or right": "left or right of a bowl",
}
_FOR_A_MOVE: dict[str, Asked] = {
    "gap": "move distance",
    "hour": "move hour",
    "left or right": "move left or right",
}


def ask(
    slot: Slot, asks: Asked, pending: Note, offers: Sequence[Offer] = (), figures: Figures | None = None
) -> AskBack:
    """A question, with the answers that it offers."""
    return AskBack(
        slot=slot,
        asks=asks,
        figures=figures or Figures(),
        pending=pending,
        choices=tuple(note for _, note in offers),
        answers=tuple(means for means, _ in offers),
    )


def ask_missing(missing: Missing, note: Note) -> AskBack:
    """Ask for the one piece without which there is no place."""
    if missing.slot == "gap" and isinstance(note, BowlNote) and "wrong bias" in note.remarks:
        return _after_a_wrong_bias(note)
    moved = isinstance(note, JackMoved) or (isinstance(note, BowlMoved) and note.by)
    beside = note.landmark if isinstance(note, Where) else None
    asks = (_FOR_A_MOVE if moved else _FROM_A_BOWL if beside else _FOR_A_BOWL)[missing.slot]
    figures = Figures(bowl=beside)
    if missing.slot != "left or right" or not isinstance(note, Where):
        return ask(missing.slot, asks, note, figures=figures)
    kept = tuple(remark for remark in note.remarks if remark not in ("left", "right"))
    ways: tuple[Literal["left", "right"], ...] = ("left", "right")
    offers: list[Offer] = [(way, note.model_copy(update={"remarks": (*kept, way)})) for way in ways]
    return ask("left or right", asks, note, offers, figures)


def _after_a_wrong_bias(note: BowlNote) -> AskBack:
    """Ask where it finished: only where a bowl went makes it dead, no wrong bias does (law 17.1)."""
    fates: tuple[Literal["dead", "in the ditch", "out of the rink"], ...] = (
        "dead",
        "in the ditch",
        "out of the rink",
    )
    offers: list[Offer] = [
        (fate, note.model_copy(update={"remarks": (*note.remarks, fate)})) for fate in fates
    ]
    return ask("gap", "after a wrong bias", note, offers)


def ask_whether(asks: Asked, note: Note, figures: Figures | None = None, laws: Sequence[str] = ()) -> AskBack:
    """Ask yes or no, with the numbers of the laws that are the reason."""
    asked = ask("yes or no", asks, note, figures=figures)
    return asked.model_copy(update={"law": ", ".join(laws)}) if laws else asked


def ask_its_name(name: BowlName, note: BowlNote, named: BowlNote) -> AskBack:
    """Ask whether this bowl is meant: the only name that was said is that of the bowl it lies beside."""
    asked = ask("yes or no", "its name", note, figures=Figures(bowl=name))
    return asked.model_copy(update={"choices": (named,)})


def ask_fate(breach: Breach, note: BowlNote | JackMoved) -> AskBack:
    """Ask whether the law's fate (dead, or in the ditch) or the called place is to be filed."""
    ditch = breach.name in ("past the ditch", "past any ditch")
    fates: tuple[Literal["dead", "in the ditch", "live"], ...] = ("in the ditch" if ditch else "dead", "live")
    offers: list[Offer] = [
        (word, note.model_copy(update={"remarks": (*note.remarks, word), "confirmed": True}))
        for word in fates
    ]
    asks: Asked = "ditch or live" if ditch else "dead or live"
    asked = ask("choice", asks, note, offers, Figures(breaches=(breach,)))
    return asked.model_copy(update={"law": breach.law})


def refuse(why: Refusal, figures: Figures | None = None) -> Refused:
    """A refusal."""
    return Refused(why=why, figures=figures or Figures())
