"""Headphones that the microphone hears: the voice's own words are never taken for a note."""

from pathlib import Path

from tests.live.listening_in import Ears
from tests.live.session import LiveSession
from tests.virtual_sound import VirtualSound
from voicecoach import journal
from voicecoach.live.loop import LEAKS

NOTES = (
    "our first, a metre, two o'clock",
    "their first, eighty centimetres, five o'clock",
    "our second, two metres, nine o'clock",
    "their second, half a metre, twelve o'clock",
)


def test_the_voice_in_the_microphone_files_nothing_and_it_is_said_that_it_leaks(
    sound_server: VirtualSound, tmp_path: Path
) -> None:
    kept = tmp_path / "live.jsonl"
    with sound_server.record_headphones() as recording, sound_server.leaking_headphones():
        ears = Ears(recording)
        with LiveSession(sound_server, kept) as session:
            for note in NOTES:
                begin = ears.now()
                session.type(note)
                session.wait_for("Noted. ")
                ears.wait_for_sound(begin)
                ears.wait_for_silence(1.5)
            for question in ("where is our first", "read the head"):
                begin = ears.now()
                session.type(question)
                session.wait_for("Answered. ")
                ears.wait_for_sound(begin)
                ears.wait_for_silence(2.5)
            printed = session.printed
    entries, _ = journal.read(kept)
    assert LEAKS in printed
    assert printed.count(LEAKS) == 1
    noted = [(entry.heard.source, entry.heard.text) for entry in entries if entry.outcome == "noted"]
    assert noted == [("typed", note) for note in NOTES], printed
