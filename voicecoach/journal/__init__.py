"""The journal: an append-only file of every utterance and what came of it."""

from voicecoach.journal.journal import Journal, JournalBusy, JournalUnwritable, open_journal, read

__all__ = ["Journal", "JournalBusy", "JournalUnwritable", "open_journal", "read"]
