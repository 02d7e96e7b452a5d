"""A session ends in good order whoever ends it, and bytes that are no text don't end it."""

import os
import signal
from pathlib import Path

import pytest

from tests.live.session import LiveSession
from tests.virtual_sound import VirtualSound
from voicecoach import journal

NOTES = ("our first, a metre, two o'clock", "their first, eighty centimetres, five o'clock")


@pytest.mark.skipif(not hasattr(signal, "SIGHUP"), reason="a system without these signals")
@pytest.mark.parametrize("name", ["SIGTERM", "SIGHUP", "SIGINT"])
def test_a_session_that_is_told_to_end_ends_well_and_keeps_every_note(
    sound_server: VirtualSound, tmp_path: Path, name: str
) -> None:
    kept = tmp_path / "live.jsonl"
    session = LiveSession(sound_server, kept)
    with session:
        for note in NOTES:
            session.type(note)
            session.wait_for("Noted. ")
        session.process.send_signal(getattr(signal, name))
        assert session.process.wait(timeout=120) == 0
    entries, torn = journal.read(kept)
    assert torn is None
    assert [entry.heard.text for entry in entries] == list(NOTES)
    assert "Traceback" not in "\n".join(session.printed)


def test_a_byte_that_is_no_text_does_not_end_the_keyboard(sound_server: VirtualSound, tmp_path: Path) -> None:
    strict = {"PYTHONIOENCODING": "utf-8:strict", "PYTHONUTF8": "0"}
    with LiveSession(sound_server, tmp_path / "live.jsonl", environment=strict) as session:
        assert session.process.stdin is not None
        os.write(session.process.stdin.fileno(), b"\xff\n")
        session.type(NOTES[0])
        session.wait_for("Noted. Our first: one metre, two o'clock.")
        assert "Traceback" not in "\n".join(session.printed)
