"""The questions about keeping the sound of what is said: whether, and which of it is deleted."""

from voicecoach import describe
from voicecoach.understand.notes.settings import SoundKept
from voicecoach.understand.values import Note, OpenQuestion, TakenBack

ASKED_FOR_S = 20.0
"""How long such a question stays open, seconds: saying it takes eight, and nobody waits to get on."""
LAST, ALL = "the last sound", "all of it"
NOTE = "the note"
"""What the answers say, in the phrase book's spelling."""


def about_sound(note: SoundKept) -> OpenQuestion | None:
    """The question that must be answered before it is done; None where nothing need be asked."""
    if note.value == "on" and not note.confirmed:
        return OpenQuestion(slot="yes or no", pending=note, ask=describe.may_sound_be_kept())
    if note.value not in ("forget", "forget that"):
        return None
    choices: tuple[Note, ...] = (SoundKept(value="forget last"), SoundKept(value="forget all"))
    answers: tuple[str, ...] = (LAST, ALL)
    if note.value == "forget that":  # it takes the last note back as well, where no sound is kept
        choices, answers = (TakenBack(), *choices), (NOTE, *answers)
    ask = describe.which_to_delete(or_a_note=note.value == "forget that")
    return OpenQuestion(slot="choice", choices=choices, answers=answers, pending=note, ask=ask)


def still_open(open_: OpenQuestion | None, note: Note) -> OpenQuestion | None:
    """The question that is open after a setting: one about sound is answered by what is said of sound."""
    answered = open_ is not None and isinstance(open_.pending, SoundKept) and isinstance(note, SoundKept)
    return None if answered else open_
