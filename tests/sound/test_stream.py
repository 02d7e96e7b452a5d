"""A call to a device that has gone may hang for ever: nobody waits for it for ever."""

import threading
import time
from collections.abc import Callable

import pytest

from voicecoach.sound import stream as stream_module
from voicecoach.sound.bounded import stuck_after
from voicecoach.sound.stream import Stream


class Hangs:
    """A device whose calls hang until it comes back."""

    def __init__(self) -> None:
        self.back = threading.Event()
        self.ended = 0

    def start(self) -> None:
        self.back.wait(600)

    def abort(self, ignore_errors: bool) -> None:
        assert ignore_errors
        self.back.wait(600)

    def close(self, ignore_errors: bool) -> None:
        assert ignore_errors
        self.ended += 1


@pytest.fixture
def device(monkeypatch: pytest.MonkeyPatch) -> Hangs:
    monkeypatch.setattr(stream_module, "ANSWER_S", 0.1)
    return Hangs()


def test_a_device_that_does_not_start_is_given_up(device: Hangs) -> None:
    stream = Stream()
    began = time.monotonic()
    assert not stream.start(device)
    assert time.monotonic() - began < 300, "it was not waited for until it came back"
    assert stream.stuck
    assert not stream.active
    device.back.set()
    assert wait_until(lambda: not stream.stuck)
    assert stream.hung


def test_a_device_that_is_not_let_go_is_given_up_and_let_go_once_it_is_back(device: Hangs) -> None:
    stream = Stream()
    device.back.set()
    assert stream.start(device)
    device.back.clear()
    stream.end()
    assert stream.stuck
    assert device.ended == 0
    device.back.set()
    assert wait_until(lambda: device.ended == 1)
    stream.end()
    assert device.ended == 1


def test_what_a_call_raises_in_time_is_raised() -> None:
    def fails() -> None:
        raise OSError("no such device")

    with pytest.raises(OSError, match="no such device"):
        stuck_after(300, fails)
    assert stuck_after(300, lambda: None) is None


def wait_until(true: Callable[[], bool]) -> bool:
    end = time.monotonic() + 300
    while time.monotonic() < end:
        if true():
            return True
        time.sleep(0.01)
    return False
