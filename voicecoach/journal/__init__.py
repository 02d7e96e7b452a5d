"""The journal: an append-only file of every utterance and what came of it.

What comes in: one `Entry` after another. What goes out: the entries that are surely on disk, in order, and,
once, what had to be put right when the file was opened. `voicecoach/guide/journal.md` describes the file.

An entry is on disk before what it did is spoken. So what the director has heard confirmed survives a flat
battery, and what was lost was never confirmed. One line is one entry, with a checksum over its bytes and a
number that must follow the one before. A torn last line is what a power cut leaves: it is set aside beside
the journal and told once. Damage with sound lines after it is something else, and stops the program with
the line's number: a journal is never repaired by guessing.

Writing can fail, and the game goes on: entries wait in memory, that is said aloud, and they are written
before any later one as soon as writing works again. After a failure the end of the file counts as unknown
and is read anew; a second `fsync` is never trusted to make up for one that failed.

There is one writer at a time (`lock`); readers need no lock. The words of talk between people that was
dropped are not kept, and no sound ever is. What an entry means, this package may not know: it keeps values
and gives them back. A form that an older program would misread needs a new version in each line, and
journals of every version so far stay readable.
"""

from voicecoach.journal.journal import Journal, open_journal
from voicecoach.journal.problems import JournalBusy, JournalUnwritable
from voicecoach.journal.scan import read

__all__ = ["Journal", "JournalBusy", "JournalUnwritable", "open_journal", "read"]
