"""The journal: an append-only file of every utterance and what came of it."""

from voicecoach.journal.journal import Journal, open_journal
from voicecoach.journal.problems import JournalBusy, JournalUnwritable
from voicecoach.journal.scan import read

__all__ = ["Journal", "JournalBusy", "JournalUnwritable", "open_journal", "read"]
