"""The voice falls silent when it is told to, and goes on where it was; two listeners hear what is theirs."""

import time
from pathlib import Path

import numpy as np
import pytest
import soundfile

from tests.live.listening_in import Ears
from tests.live.session import LiveSession
from tests.virtual_sound import VirtualSound

STOP = Path(__file__).parent / "audio" / "stop.wav"
HEAD = [f"{side} {nth}, {gap} centimetres, six o'clock" for side, nth, gap in (
    ("our", "first", "thirty"), ("their", "first", "sixty"), ("our", "second", "ninety"),
)] + ["their second, two metres, twelve o'clock", "our third, three metres, twelve o'clock"]  # fmt: skip
SILENT_S = 1.5
"""Longer than any pause in a head that is read on."""
WHOLE_S = 12.0
"""The head, read to its end, takes longer; how soon it is silent, `make bench-speed` prints."""


def loud_until_s(wav: Path) -> float:
    """When the last sound in a recording ends, seconds from its start."""
    samples, rate_hz = soundfile.read(wav)
    loud = np.flatnonzero(np.abs(samples).max(axis=1) > 0.01)
    return float(loud[-1]) / rate_hz if loud.size else 0.0


def told(session: LiveSession) -> None:
    session.type("")
    session.wait_for("Heard: stop")
    for note in HEAD:
        session.type(note)
        session.wait_for("Noted. ")
    time.sleep(3)


def test_enter_silences_the_voice_at_once_and_go_on_resumes_in_that_sentence(
    sound_server: VirtualSound, tmp_path: Path
) -> None:
    with LiveSession(sound_server, tmp_path / "live.jsonl") as session:
        told(session)
        with sound_server.record_headphones() as cut:
            ears = Ears(cut)
            session.type("read the head")
            session.wait_for("Answered. ")
            ears.wait_for_sound()
            time.sleep(3)
            session.type("")
            session.wait_for("Heard: stop")
            ears.wait_for_silence(SILENT_S)
            assert ears.span_s() < WHOLE_S
        session.type("go on")
        rest = session.wait_for("Answered. ").text
    assert "We hold" not in rest
    assert "Our third" in rest


def test_stop_said_aloud_silences_the_voice(sound_server: VirtualSound, tmp_path: Path) -> None:
    with LiveSession(sound_server, tmp_path / "live.jsonl") as session:
        told(session)
        session.type("read the head")
        session.wait_for("Answered. ")
        with sound_server.record_headphones() as cut:
            ears = Ears(cut)
            ears.wait_for_sound()
            sound_server.play_into_microphone(STOP)
            session.wait_for("Heard: stop")
            ears.wait_for_silence(SILENT_S)
            assert ears.span_s() < WHOLE_S
        session.type("go on")
        rest = session.wait_for("Answered. ").text
    assert "Our third" in rest


def test_the_head_goes_to_the_player_and_confirmations_to_the_director(
    sound_server: VirtualSound, tmp_path: Path
) -> None:
    options = ("--headphones", sound_server.earpiece, "--player-headphones", sound_server.headphones)
    with LiveSession(sound_server, tmp_path / "live.jsonl", *options) as session:
        session.type("")
        session.wait_for("Heard: stop")
        session.type("only when asked")
        session.wait_for("Noted. ")
        with sound_server.record_headphones() as recording:
            session.type("our first, a metre, two o'clock")
            session.wait_for("Noted. ")
            time.sleep(4)
        quiet = loud_until_s(recording.wav)
        with sound_server.record_headphones() as recording:
            session.type("read the head")
            session.wait_for("Answered. ")
            time.sleep(4)
        heard = loud_until_s(recording.wav)
    assert quiet == 0.0
    assert heard > 1.0


@pytest.fixture(autouse=True)
def _recordings_are_there() -> None:
    assert STOP.is_file()
