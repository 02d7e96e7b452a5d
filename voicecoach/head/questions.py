"""The head's questions back and refusals, each a whole sentence in plain words."""

from collections.abc import Sequence

from voicecoach.head.settle import Missing
from voicecoach.head.spoken import sentence
from voicecoach.head.values import Ask, Refused
from voicecoach.understand.values import BowlMoved, BowlRested, JackMoved, Note, OpenQuestion, Slot, Where

_FOR_A_BOWL = {
    "gap": "How far from the jack is it?",
    "hour": "Which hour is it on?",
    "left or right": "Is it left or right of the jack?",
}
_FOR_A_MOVE = {
    "gap": "How far did it move?",
    "hour": "Towards which hour did it move?",
    "left or right": "Did it move left or right?",
}


def ask(slot: Slot, text: str, pending: Note, choices: Sequence[tuple[str, Note]] = ()) -> Ask:
    """A question; `choices` are pairs of the answer's words and the note it makes."""
    return Ask(
        open=OpenQuestion(
            slot=slot,
            choices=tuple(note for _, note in choices),
            answers=tuple(words for words, _ in choices),
            pending=pending,
            ask=sentence(text),
        )
    )


def ask_missing(missing: Missing, note: Note) -> Ask:
    """Ask for the one piece without which there is no place."""
    moved = isinstance(note, JackMoved) or (isinstance(note, BowlMoved) and note.by)
    text = (_FOR_A_MOVE if moved else _FOR_A_BOWL)[missing.slot]
    if missing.slot != "left or right" or not isinstance(note, Where):
        return ask(missing.slot, text, note)
    kept = tuple(remark for remark in note.remarks if remark not in ("left", "right"))
    choices: list[tuple[str, Note]] = [
        (way, note.model_copy(update={"remarks": (*kept, way)})) for way in ("left", "right")
    ]
    return ask("left or right", text, note, choices)


def ask_whether(text: str, note: Note, laws: Sequence[str] = ()) -> Ask:
    """Ask yes or no, with the numbers of the laws that are the reason."""
    asked = ask("yes or no", text, note)
    return asked.model_copy(update={"law": ", ".join(laws)}) if laws else asked


def ask_fate(text: str, note: BowlRested | BowlMoved | JackMoved, fate: str, law: str) -> Ask:
    """Ask whether a law's fate (`dead`, `in the ditch`) or the called place is to be filed."""
    choices: list[tuple[str, Note]] = [
        (word, note.model_copy(update={"remarks": (*note.remarks, word), "confirmed": True}))
        for word in (fate, "live")
    ]
    return ask("choice", text, note, choices).model_copy(update={"law": law})


def refuse(text: str) -> Refused:
    """A refusal."""
    return Refused(why=sentence(text))
