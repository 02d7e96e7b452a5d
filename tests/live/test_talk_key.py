"""The talk key: nothing is heard but what is said while it is held, and typed notes go on working."""

import os
import pty
import queue
import subprocess
import sys
import termios
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.live import session as session_module
from tests.live.session import LISTEN, LiveSession
from tests.virtual_sound import VirtualSound
from voicecoach import journal
from voicecoach.hear.blocks import Block, silence
from voicecoach.live.inputs import HeardFrom, Inputs
from voicecoach.live.keyboard import KeyTyping
from voicecoach.live.talk_key import FIRST_S, PRE_ROLL_S, REPEAT_S, TAIL_S, KeyGate, TalkKey
from voicecoach.places import scenarios

NOTE = scenarios() / "first_end" / "03-theirs.wav"
BLOCK_S = 0.04
CONTROL_D = "\x04"


def held(key: TalkKey, from_s: float, to_s: float, pause_s: float = 0.5) -> None:
    """A press and its repeats, as a terminal tells of a key that is held."""
    key.press(from_s)
    repeat_s = from_s + pause_s
    while repeat_s <= to_s:
        key.press(repeat_s)
        repeat_s += 0.04


def passed(gate: KeyGate, seconds: float, press: dict[float, TalkKey], lag_s: float = 0.0) -> list[float]:
    """Feed blocks of sound that begin at nought; when each that was let through began."""
    through: list[float] = []
    for number in range(round(seconds / BLOCK_S)):
        at_s = number * BLOCK_S
        for when_s in [when_s for when_s in press if when_s <= at_s + BLOCK_S + lag_s]:
            press.pop(when_s).press(when_s)
        blocks, _ = gate.let_through(Block(silence(BLOCK_S), at_s), at_s + BLOCK_S + lag_s)
        through += [block.at_s for block in blocks]
    return through


@pytest.mark.parametrize("pause_s", [0.25, 0.6, 1.0])
def test_a_key_counts_as_held_through_the_pause_before_its_repeats(pause_s: float) -> None:
    key = TalkKey()
    held(key, 10.0, 13.0, pause_s)
    assert all(key.open_at(10.0 + step / 10) for step in range(31))
    assert not key.open_at(9.9)
    assert not key.open_at(13.0 + REPEAT_S + TAIL_S + 0.01)


def test_a_single_press_counts_long_enough_for_the_slowest_keyboard_and_no_longer() -> None:
    key = TalkKey()
    key.press(10.0)
    assert key.open_at(10.0 + FIRST_S)
    assert not key.open_at(10.0 + FIRST_S + TAIL_S + 0.01)


def test_a_key_pressed_again_just_after_it_was_let_go_is_not_cut_off_by_its_pause() -> None:
    key = TalkKey()
    held(key, 10.0, 12.0)
    held(key, 12.4, 14.0, pause_s=0.66)
    assert all(key.open_at(10.0 + step / 10) for step in range(41))


def test_sound_from_just_before_the_press_goes_through_and_nothing_else_from_before() -> None:
    key = TalkKey()
    through = passed(KeyGate(key), 6.0, {2.0: key})
    assert 2.0 - PRE_ROLL_S - 2 * BLOCK_S < through[0] < 2.0 - PRE_ROLL_S + 2 * BLOCK_S
    assert through[-1] == pytest.approx(2.0 + FIRST_S + TAIL_S, abs=2 * BLOCK_S)
    assert through == sorted(set(through))


def test_sound_that_is_taken_late_is_judged_by_when_it_came() -> None:
    key = TalkKey()
    gate = KeyGate(key)
    passed(gate, 1.0, {})
    held(key, 2.0, 3.0)
    late_s = 0.8
    early, _ = gate.let_through(Block(silence(BLOCK_S), 1.4), 1.4 + BLOCK_S + late_s)
    within, _ = gate.let_through(Block(silence(BLOCK_S), 2.5), 2.5 + BLOCK_S + late_s)
    after, let_go = gate.let_through(Block(silence(BLOCK_S), 3.7), 3.7 + BLOCK_S)
    assert not early
    assert [block.at_s for block in within][-1] == 2.5
    assert not after
    assert let_go


def test_that_the_key_was_let_go_is_told_once() -> None:
    key = TalkKey()
    gate = KeyGate(key)
    key.press(1.0)
    told = [
        gate.let_through(Block(silence(BLOCK_S), step / 25), step / 25 + BLOCK_S)[1] for step in range(100)
    ]
    assert told.count(True) == 1


def test_keys_gather_to_a_typed_note_and_an_empty_line_holds_the_talk_key() -> None:
    inputs: Inputs = queue.Queue()
    key = TalkKey()
    echoed: list[str] = []
    typing = KeyTyping(inputs, key, list, echoed.append)
    for each in "our  fist\x7f\x7f\x7first\r":
        typing.press(each, 10.0)
    assert not key.open_at(10.0)
    typing.press("\r", 11.0)
    typing.press(" ", 12.0)
    assert key.open_at(12.0)
    texts = [item.heard.text for item in inputs.queue if isinstance(item, HeardFrom)]
    assert texts == ["our  first", "stop"]
    assert "".join(echoed).count("\b \b") == 3


def test_a_held_space_bar_talks_although_a_letter_was_typed_by_mistake() -> None:
    inputs: Inputs = queue.Queue()
    key = TalkKey()
    typing = KeyTyping(inputs, key, list, lambda _: None)
    for each in "x   ":
        typing.press(each, 10.0)
    assert key.open_at(10.0)
    assert typing.line == ""


UNHURRIED = """
from voicecoach.live import talk_key
talk_key.REPEAT_S = talk_key.FIRST_S = 3.0
from voicecoach.__main__ import main
main()
"""
"""The program with more patience between a held key's repeats: on a busy machine the finger below is slow."""


class Terminal(LiveSession):
    """A live session with a terminal for its keyboard."""

    def __init__(self, sound: VirtualSound, kept: Path) -> None:
        self._keyboard, self._keys_end = pty.openpty()
        self.settings_before = self.settings()
        super().__init__(sound, kept, "--hold-to-talk", keyboard=self._keys_end)

    def press(self, keys: str) -> None:
        """Press keys, as a keyboard sends them."""
        os.write(self._keyboard, keys.encode())

    def settings(self) -> list[object]:
        """How the terminal is set."""
        return termios.tcgetattr(self._keys_end)

    @contextmanager
    def holding(self, key: str) -> Iterator[None]:
        """Hold a key down: a press, a pause, then repeats."""
        let_go = threading.Event()

        def repeat() -> None:
            self.press(key)
            let_go.wait(0.5)
            while not let_go.wait(0.04):
                self.press(key)

        finger = threading.Thread(target=repeat)
        finger.start()
        try:
            yield
        finally:
            let_go.set()
            finger.join()

    def end(self) -> int | None:
        """See LiveSession."""
        status = super().end()
        os.close(self._keyboard)
        os.close(self._keys_end)
        return status


def test_only_what_is_said_while_the_key_is_held_is_filed(
    sound_server: VirtualSound, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(session_module, "LISTEN", (sys.executable, "-u", "-c", UNHURRIED, "listen"))
    kept = tmp_path / "live.jsonl"
    session = Terminal(sound_server, kept)
    with session:
        assert {"This describes, never guides.", "Twelve is past the jack, seen from the mat."} <= {
            *session.printed
        }
        assert "Hold the space bar down while you speak." in session.printed
        session.press("stop\r")
        session.wait_for("Heard: stop")
        sound_server.play_into_microphone(NOTE)
        time.sleep(1.5)
        with session.holding(" "):
            sound_server.play_into_microphone(NOTE)
        session.wait_for("Noted. Their first: eighty centimetres, two o'clock.")
        session.press("our first, a metre, four o'clox\x7fck\r")
        session.wait_for("Noted. Our first: one metre, four o'clock.")
        session.press(CONTROL_D)
        assert session.process.wait(timeout=120) == 0
        assert session.settings() == session.settings_before, "the terminal is left as it was"
    assert [entry.heard.source for entry in journal.read(kept)[0]] == ["typed", "microphone", "typed"]


def test_without_a_keyboard_the_talk_key_is_refused_in_words(tmp_path: Path) -> None:
    order = [*LISTEN, "--hold-to-talk", "--journal", str(tmp_path / "live.jsonl")]
    done = subprocess.run(order, stdin=subprocess.DEVNULL, capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert "Start it in a terminal" in done.stderr
    assert not list(tmp_path.iterdir())
