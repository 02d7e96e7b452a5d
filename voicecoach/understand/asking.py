"""The questions this stage asks back: what is missing, or which of two."""

from __future__ import annotations

from voicecoach.understand.values import Note, OpenQuestion, Slot, Unclear, Where

QUESTIONS: dict[Slot, str] = {
    "gap": "How far?",
    "hour": "Which way: what o'clock?",
    "left or right": "Left or right?",
    "side": "Ours or theirs?",
    "number": "Which bowl?",
}


def ask_for(note: Note, slot: Slot) -> Unclear:
    """A whole note but for one slot: asks for exactly that."""
    ask = QUESTIONS[slot]
    return Unclear(why="incomplete", say=ask, doubt=OpenQuestion(slot=slot, pending=note, ask=ask))


def ask_which(note: Note) -> Unclear:
    """The hour and a word for where disagree: asks which is right."""
    choices, answers = _sides(note)
    ask = f"{answers[0]} or {answers[1]}?".capitalize()
    doubt = OpenQuestion(slot="left or right", choices=choices, answers=answers, pending=note, ask=ask)
    return Unclear(why="contradiction", say=ask, doubt=doubt)


def _sides(note: Note) -> tuple[tuple[Note, ...], tuple[str, str]]:
    assert isinstance(note, Where)
    return (note, note), ("left", "right")
