"""A disk that fills while notes are taken, and a journal whose end was torn: said, and nothing is lost."""

import resource
import time
from pathlib import Path

from tests.live.session import LiveSession
from tests.live.test_interrupting import loud_until_s
from tests.virtual_sound import VirtualSound
from voicecoach import journal
from voicecoach.conversation import Conversation
from voicecoach.hear.values import Heard
from voicecoach.live.loop import WRITTEN

NOTES = ("our first, a metre, two o'clock", "their first, eighty centimetres, five o'clock")
CANT = "can't be written: the file has reached its largest size. Notes are kept in memory until it can be."
CONFIRMATION_S = 4.5
"""A confirmation is spoken in less; with what is said of the journal it takes twice as long."""


def limit(session: LiveSession, size: int) -> None:
    """No file of the session's may grow beyond so many bytes: writing fails then, as on a full disk."""
    most = resource.getrlimit(resource.RLIMIT_FSIZE)[1]
    resource.prlimit(session.process.pid, resource.RLIMIT_FSIZE, (size, most))


def test_on_a_full_disk_notes_are_taken_and_written_by_themselves_once_there_is_room(
    sound_server: VirtualSound, tmp_path: Path
) -> None:
    kept = tmp_path / "live.jsonl"
    with LiveSession(sound_server, kept) as session:
        session.type("stop")
        session.wait_for("Noted.")
        time.sleep(1)
        limit(session, kept.stat().st_size + 20)  # in the middle of the next line
        with sound_server.record_headphones() as recording:
            session.type(NOTES[0])
            session.wait_for(CANT)
            session.wait_for("Noted. Our first: one metre, two o'clock.")
            time.sleep(12)
        assert loud_until_s(recording.wav) > CONFIRMATION_S, "it is said in the headphones too"
        session.type(NOTES[1])
        session.wait_for("Noted. Their first")
        told = sum(CANT in line for line in session.printed)
        assert WRITTEN not in session.printed
        limit(session, resource.RLIM_INFINITY)
        session.wait_for(WRITTEN)
        assert [entry.heard.text for entry in journal.read(kept)[0]] == ["stop", *NOTES]
        time.sleep(3)
        assert session.printed.count(WRITTEN) == 1
    assert told == 2, "once in full with the file's name, once as it is spoken"


def test_a_torn_end_of_the_journal_is_told_once_and_the_notes_before_it_are_there(
    sound_server: VirtualSound, tmp_path: Path
) -> None:
    kept = tmp_path / "live.jsonl"
    with Conversation(kept) as before:
        for note in NOTES:
            before.hear(Heard(text=note))
    kept.write_bytes(kept.read_bytes() + b'{"check":"12')
    spoken = "The end of the journal was torn and has been set aside. The notes before it are safe."
    with LiveSession(sound_server, kept) as session:
        session.type("where is their first")
        session.wait_for("Answered. Their first")
        printed = list(session.printed)
    assert printed.count(spoken) == 1
    assert sum("are set aside in" in line for line in printed) == 1, "in full on the side, with the file"
    with LiveSession(sound_server, kept) as session:
        session.type("where is their first")
        session.wait_for("Answered. Their first")
    assert not any("torn" in line for line in session.printed)
