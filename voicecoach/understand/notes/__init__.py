"""What a note can say: one class for each kind, exactly as it was said, a module for each subject.

A kind is a frozen value with its fields, its `kind`, and the traits by which it differs (`base.py`). It is
added to its subject's union at the end of the module, and so to `Note`.
"""

from typing import Annotated

from pydantic import Field

from voicecoach.understand.notes.asking import AskingNote
from voicecoach.understand.notes.bowls import BowlNote
from voicecoach.understand.notes.corrections import Correction
from voicecoach.understand.notes.ends import EndNote
from voicecoach.understand.notes.jack import JackNote
from voicecoach.understand.notes.lines import LineNote
from voicecoach.understand.notes.settings import Setting

Note = Annotated[
    BowlNote | JackNote | Correction | AskingNote | LineNote | EndNote | Setting,
    Field(discriminator="kind"),
]


def says_all_of(note: Note, other: Note) -> bool:
    """True when a note says all that another of its kind does, and perhaps more."""
    whole, said = note.model_dump(), other.model_dump(exclude_defaults=True)
    return type(note) is type(other) and all(whole[name] == value for name, value in said.items())
