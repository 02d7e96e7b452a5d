"""The form of one line of the journal."""

from typing import Annotated, Literal

from pydantic import Field

from voicecoach.session.values import Entry
from voicecoach.value import Value

VERSION = 1
"""The version that this program writes. It goes up when an older program couldn't read a line of it."""


class JournalLine(Value):
    """One line of the journal: compact JSON with the three fields in this order, ended by a line feed."""

    check: Annotated[str, Field(pattern="^[0-9a-f]{8}$")]
    """CRC-32 (the one of zip and PNG), in hexadecimal, of every byte of the line from `"version"` on."""
    version: Literal[1]
    """The version of the form."""
    entry: Entry
    """What was heard and what came of it."""
