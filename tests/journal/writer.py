"""A program that appends entries until it is killed, and prints the number of each that is on disk."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.journal.entries import entry
from voicecoach.journal import open_journal

with open_journal(sys.argv[1]) as journal:
    while journal.append(entry(len(journal.entries) + 1)):
        print(len(journal.entries), flush=True)
