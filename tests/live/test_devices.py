"""Devices that go away in the middle of a live session, come back, and a sound server that dies."""

import time
from pathlib import Path

from tests.live.listening_in import Ears
from tests.live.session import LiveSession
from tests.virtual_sound import VirtualSound
from voicecoach import journal
from voicecoach.places import scenarios

QUESTION = scenarios() / "first_end" / "13-question.wav"


def test_a_microphone_that_goes_away_is_told_and_taken_up_again(
    sound_server: VirtualSound, tmp_path: Path
) -> None:
    with LiveSession(sound_server, tmp_path / "live.jsonl") as session:
        session.type("stop")
        session.wait_for("Heard: stop")
        with sound_server.record_headphones() as recording:
            ears = Ears(recording)
            ears.wait_for_silence(1.5)
            before = ears.now()
            sound_server.unplug(sound_server.microphone)
            session.wait_for("has gone")
            ears.wait_for_sound(before)  # it is told in the headphones too
        session.type("our first, a metre, two o'clock")
        session.wait_for("Noted. Our first: one metre, two o'clock.")
        sound_server.plug_in(sound_server.microphone)
        sound_server.wait_until_it_hears()
        session.wait_for("Listening on microphone.")
        time.sleep(1)
        sound_server.play_into_microphone(QUESTION)
        session.wait_for("Heard: who holds")


def test_headphones_that_go_away_are_told_and_notes_go_on(sound_server: VirtualSound, tmp_path: Path) -> None:
    kept = tmp_path / "live.jsonl"
    with LiveSession(sound_server, kept) as session:
        session.type("stop")
        session.wait_for("Heard: stop")
        sound_server.unplug(sound_server.headphones)
        session.type("our first, a metre, two o'clock")
        session.wait_for("Noted. Our first: one metre, two o'clock.")
        session.wait_for("What is said is printed here.")
        sound_server.plug_in(sound_server.headphones)
        time.sleep(1)
        session.type("their first, a metre, four o'clock")
        session.wait_for("The headphones are back.")
    assert [entry.outcome for entry in journal.read(kept)[0]] == ["noted"] * 3


def test_a_sound_server_that_dies_and_comes_back_loses_no_note(
    sound_server: VirtualSound, tmp_path: Path
) -> None:
    kept = tmp_path / "live.jsonl"
    with LiveSession(sound_server, kept) as session:
        sound_server.stop()
        session.wait_for("has gone")
        session.type("our first, a metre, two o'clock")
        session.wait_for("Noted. Our first: one metre, two o'clock.")
        sound_server.start()
        session.wait_for("Listening on microphone.")
        time.sleep(1)
        sound_server.play_into_microphone(QUESTION)
        session.wait_for("Heard: who holds")
    assert [entry.outcome for entry in journal.read(kept)[0]] == ["noted", "answered"]
