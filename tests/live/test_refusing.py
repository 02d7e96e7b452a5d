"""Devices that refuse to be opened at first, as on a busy machine: told, and tried again before giving up.

The sound server can't be made to refuse at will, so the sound library's streams do so in its place.
"""

import sys
import threading
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import sounddevice

from tests.live import session as session_module
from tests.live.session import LiveSession
from tests.virtual_sound import VirtualSound
from voicecoach.errors import DeviceRefused
from voicecoach.live.beginning import AGAIN, LATE
from voicecoach.speak import headphones as headphones_module
from voicecoach.speak.headphones import Headphones
from voicecoach.speak.values import Sound

BEEP = Sound(samples=np.full(4_800, 0.1, np.float32), rate_hz=48_000)
REFUSES = """
import pathlib, sys
import sounddevice
class Refusing(sounddevice.InputStream):
    def __init__(self, *arguments, **options):
        if not pathlib.Path({ready!r}).exists():
            raise sounddevice.PortAudioError("Unanticipated host error", -9999)
        super().__init__(*arguments, **options)
sounddevice.InputStream = Refusing
from voicecoach.live import beginning
beginning.TRIED_S = {tried_s}
from voicecoach.__main__ import main
main()
"""
REFUSED = "The microphone microphone can't be opened: Unanticipated host error. "


LATE_SOUND = """
import pathlib, sys
import sounddevice
class Late(sounddevice.InputStream):
    def __init__(self, *arguments, callback, **options):
        def came(*sound):
            if pathlib.Path({ready!r}).exists():
                callback(*sound)
        super().__init__(*arguments, callback=came, **options)
sounddevice.InputStream = Late
from voicecoach.live import beginning
beginning.FIRST_SOUND_S, beginning.TRIED_S = 0.5, 600.0
from voicecoach.__main__ import main
main()
"""


def refusing(monkeypatch: pytest.MonkeyPatch, ready: Path, tried_s: float) -> None:
    """The microphones of sessions refuse until this file exists."""
    order = (sys.executable, "-u", "-c", REFUSES.format(ready=str(ready), tried_s=tried_s), "listen")
    monkeypatch.setattr(session_module, "LISTEN", order)


def test_a_microphone_whose_first_sound_is_late_is_told_and_waited_for(
    sound_server: VirtualSound, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ready = tmp_path / "ready"
    order = (sys.executable, "-u", "-c", LATE_SOUND.format(ready=str(ready)), "listen")
    monkeypatch.setattr(session_module, "LISTEN", order)
    session = LiveSession(sound_server, tmp_path / "live.jsonl")
    try:
        session.wait_for(LATE)
        ready.touch()
        session.wait_for("Listening on microphone.")
    finally:
        status = session.end()
    assert status == 0
    assert session.printed.count(LATE) == 1


def test_a_microphone_that_refuses_at_first_is_told_and_tried_again(
    sound_server: VirtualSound, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ready = tmp_path / "ready"
    refusing(monkeypatch, ready, tried_s=600.0)
    session = LiveSession(sound_server, tmp_path / "live.jsonl")
    try:
        told = session.wait_for("can't be opened")
        ready.touch()
        assert told.text.startswith(REFUSED)
        assert AGAIN in told.text
        session.wait_for("Listening on microphone.")
        session.type("our first, a metre, two o'clock")
        session.wait_for("Noted. Our first: one metre, two o'clock.")
    finally:
        status = session.end()
    assert status == 0
    assert sum("can't be opened" in line for line in session.printed) == 1


def test_a_microphone_that_goes_on_refusing_is_given_up_in_a_plain_sentence(
    sound_server: VirtualSound, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    refusing(monkeypatch, tmp_path / "never", tried_s=1.0)
    session = LiveSession(sound_server, tmp_path / "live.jsonl")
    session.wait_for(AGAIN)
    last = session.wait_for(REFUSED)
    assert session.process.wait(timeout=120) == 3
    session.end()
    assert AGAIN not in last.text
    assert "Traceback" not in "\n".join(session.printed)


class Refusals:
    """Headphones that refuse so many times; how many of those are left."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, times: int) -> None:
        self.left = times
        real = sounddevice.OutputStream

        def refusing(**options: Any) -> Any:
            if self.left:
                self.left -= 1
                raise sounddevice.PortAudioError("Unanticipated host error", -9999)
            return real(**options)

        monkeypatch.setattr(sounddevice, "OutputStream", refusing)


def test_headphones_that_refuse_at_first_are_tried_again(
    sound_server: VirtualSound, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(headphones_module, "TRIED_S", 60.0)
    headphones = Headphones(sound_server.headphones)
    refusals = Refusals(monkeypatch, times=3)
    assert headphones.play([BEEP]) == 1
    assert refusals.left == 0


def test_headphones_that_go_on_refusing_are_given_up_and_then_tried_once_each_time(
    sound_server: VirtualSound, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(headphones_module, "TRIED_S", 0.5)
    headphones = Headphones(sound_server.headphones)
    refusals = Refusals(monkeypatch, times=1_000)
    with pytest.raises(DeviceRefused, match="can't be opened"):
        headphones.play([BEEP])
    assert refusals.left < 999, "it was tried again"
    refusals.left = 1_000
    with pytest.raises(DeviceRefused, match="can't be opened"):
        headphones.play([BEEP])
    assert refusals.left == 999, "notes aren't kept waiting by headphones that are away"
    refusals.left = 0
    assert headphones.play([BEEP]) == 1


def test_a_stop_ends_the_trying(sound_server: VirtualSound, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(headphones_module, "TRIED_S", 600.0)
    Refusals(monkeypatch, times=1_000_000)
    stopped = threading.Event()
    threading.Timer(0.6, stopped.set).start()
    assert Headphones(sound_server.headphones).play([BEEP], stopped) == 0
