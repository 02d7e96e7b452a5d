"""Devices that go away in the middle of a live session, come back, and a sound server that dies."""

import math
import time
from pathlib import Path

import numpy as np
import soundfile

from tests.live.session import LiveSession
from tests.virtual_sound import VirtualSound
from voicecoach import journal
from voicecoach.places import scenarios

QUESTION = scenarios() / "first_end" / "13-question.wav"
TAKEN_UP_S = 3.0
"""A microphone is to be listened to within this time of the first sound that it gives to anybody, seconds."""


def loud_from_s(wav: Path) -> float:
    """When the first sound in a recording begins, seconds from its start; infinite where there is none."""
    samples, rate_hz = soundfile.read(wav)
    loud = np.flatnonzero(np.abs(samples).max(axis=1) > 0.01)
    return float(loud[0]) / rate_hz if loud.size else math.inf


def test_a_microphone_that_goes_away_is_told_and_taken_up_again(
    sound_server: VirtualSound, tmp_path: Path
) -> None:
    with LiveSession(sound_server, tmp_path / "live.jsonl") as session:
        session.type("stop")
        session.wait_for("Heard: stop")
        time.sleep(1)
        with sound_server.record_headphones() as recording:
            began = time.monotonic()
            time.sleep(0.5)
            gone_s = time.monotonic() - began
            sound_server.unplug(sound_server.microphone)
            told = session.wait_for("has gone")
            time.sleep(3)
        assert told.after_s < 1.0
        heard_s = loud_from_s(recording.wav) - gone_s
        assert 0 < heard_s < 2.0, "told in the headphones as soon as it is printed"
        session.type("our first, a metre, two o'clock")
        session.wait_for("Noted. Our first: one metre, two o'clock.")
        sound_server.plug_in(sound_server.microphone)
        sound_server.wait_until_it_hears()
        back = session.wait_for("Listening on microphone.", within_s=15)
        assert back.after_s < TAKEN_UP_S
        time.sleep(1)
        sound_server.play_into_microphone(QUESTION)
        session.wait_for("Heard: who holds", within_s=10)


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
        session.wait_for("The headphones are back.", within_s=15)
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
        session.wait_for("Listening on microphone.", within_s=15)
        time.sleep(1)
        sound_server.play_into_microphone(QUESTION)
        session.wait_for("Heard: who holds", within_s=10)
    assert [entry.outcome for entry in journal.read(kept)[0]] == ["noted", "answered"]
