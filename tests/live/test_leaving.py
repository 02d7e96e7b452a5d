"""The program ends without being killed: no thread is left inside the sound library, or none is tidied."""

import subprocess
import sys
import threading
import time
from collections.abc import Iterator, Sequence

import pytest

from tests.live.test_speaking import GONE, HEAD, Remembers
from tests.virtual_sound import VirtualSound
from voicecoach import leaving
from voicecoach.describe.values import Sentence
from voicecoach.live import devices as devices_module
from voicecoach.live.devices import Devices
from voicecoach.live.speaking import Speaking

ENDS = """
import atexit
from voicecoach import leaving
atexit.register(print, "tidied up")
print("the last words")
{hangs}
leaving.leave(3)
"""


class SlowToLetGo(Remembers):
    """A mouth whose device takes its time to be shut, as on a busy machine, or for ever."""

    def __init__(self, device: str) -> None:
        super().__init__(device)
        self.shut = threading.Event()

    def say(self, sentences: Sequence[Sentence], stopped: threading.Event | None = None) -> int:
        spoken = super().say(sentences, stopped)
        self.shut.wait(60)
        return spoken


@pytest.fixture
def mouth(sound_server: VirtualSound) -> Iterator[SlowToLetGo]:
    mouth = SlowToLetGo(sound_server.headphones)
    yield mouth
    mouth.shut.set()
    mouth.close()


def beginning_to_speak(mouth: Remembers) -> Speaking:
    speaking = Speaking(mouth, pytest.fail, lambda: None)
    speaking.start()
    speaking.say(HEAD)
    while not speaking.saying:
        time.sleep(0.01)
    return speaking


def test_a_voice_that_is_told_to_leave_says_nothing_more_not_even_what_was_to_break_in(
    mouth: SlowToLetGo,
) -> None:
    speaking = beginning_to_speak(mouth)
    speaking.say_aside((GONE,))
    speaking.leave()
    mouth.shut.set()
    speaking.join(60)
    assert not speaking.is_alive()
    assert GONE not in mouth.said
    assert HEAD[-1] not in mouth.said


def test_the_end_waits_until_the_voice_has_shut_its_headphones(
    mouth: SlowToLetGo, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(devices_module, "LET_GO_S", 60.0)
    devices = Devices()
    devices.voices = (beginning_to_speak(mouth),)
    threading.Timer(1.0, mouth.shut.set).start()
    devices.close()
    assert mouth.shut.is_set()
    assert not devices.voices[0].is_alive()
    assert not devices.hung


def test_a_voice_that_does_not_come_back_from_its_device_makes_the_program_end_at_once(
    mouth: SlowToLetGo, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(devices_module, "LET_GO_S", 0.2)
    monkeypatch.setattr(leaving, "_hangs", threading.Event())
    devices = Devices()
    devices.voices = (beginning_to_speak(mouth),)
    devices.close()
    assert devices.hung
    assert leaving._hangs.is_set()


@pytest.mark.parametrize("hangs", [True, False])
def test_the_program_ends_with_its_status_and_tidies_up_only_where_nothing_hangs(hangs: bool) -> None:
    order = ENDS.format(hangs="leaving.at_once()" if hangs else "")
    done = subprocess.run([sys.executable, "-c", order], capture_output=True, text=True, check=False)
    assert done.returncode == 3
    assert done.stdout == ("the last words\n" if hangs else "the last words\ntidied up\n")
