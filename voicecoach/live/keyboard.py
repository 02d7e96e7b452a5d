"""The keyboard, key by key: the talk key is held down, and all other keys make up a typed note.

click's own way to read a key sets the terminal anew for each one. What is typed in between is lost, and
lines that are printed meanwhile don't begin at the edge. So it is used only where the system has no
terminals of this kind.
"""

from __future__ import annotations

import codecs
import os
import re
import signal
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType

import click

from voicecoach.hear.values import Heard
from voicecoach.live.inputs import STOP, HeardFrom, Inputs
from voicecoach.live.talk_key import TalkKey

KEY = re.compile(r"\x1b\[[0-9;]*[A-Za-z~]|\x1bO.|.", re.DOTALL)
"""One key as a terminal sends it: a sequence for a key without a letter, or a single character."""
PAGE_KEYS = {"\x1b[5~", "\x1b[6~", "\xe0I", "\xe0Q", "\x00I", "\x00Q"}
"""Page up and page down from a terminal, and from Windows: a hand-held clicker's two keys."""
END_OF_INPUT = "\x04"
HELD = "   "
"""Nobody types this many spaces in a row: the space bar is held down, although something was typed."""
READ_BYTES = 1024


class KeyTyping(threading.Thread):
    """Reads keys. Enter sends a typed note, and Enter alone stops the voice, as it does line by line.

    Attributes:
        line: What has been typed of the next note.
    """

    def __init__(
        self, inputs: Inputs, key: TalkKey, read: Callable[[], list[str]], echo: Callable[[str], None]
    ) -> None:
        super().__init__(name="typing", daemon=True)
        self.line = ""
        self._inputs, self._key = inputs, key
        self._read, self._echo = read, echo

    def run(self) -> None:
        """Read keys until the input ends. That ends the program, since nobody could talk any more."""
        try:
            while True:
                for each in self._read():
                    self.press(each, time.monotonic())
        except (EOFError, KeyboardInterrupt, OSError):
            signal.raise_signal(signal.SIGINT)

    def press(self, key: str, now_s: float) -> None:
        """Do what this key stands for."""
        if key in PAGE_KEYS or (key == " " and not self.line):
            self._key.press(now_s)
        elif key in "\r\n":
            self._send()
        elif key in "\b\x7f":
            self._rub_out(self.line[-1:])
        elif key == END_OF_INPUT:
            raise EOFError
        elif key.isprintable():
            self._write(key, now_s)

    def _send(self) -> None:
        self._echo("\n")
        self._inputs.put(HeardFrom(Heard(text=self.line.strip() or STOP), "director"))
        self.line = ""

    def _write(self, key: str, now_s: float) -> None:
        self.line += key
        self._echo(key)
        if self.line.endswith(HELD):
            self._rub_out(self.line)
            self._key.press(now_s)

    def _rub_out(self, last: str) -> None:
        self.line = self.line[: len(self.line) - len(last)]
        self._echo("\b \b" * len(last))


def echo(text: str) -> None:
    """Show what is typed where it is typed."""
    click.echo(text, nl=False, err=True)


if sys.platform == "win32":

    def reader() -> Callable[[], list[str]]:
        """Something that waits for the next keys."""
        return lambda: [click.getchar()]

    @contextmanager
    def single_keys() -> Iterator[None]:
        """Keys come one by one while the block runs. Here they always do."""
        yield

else:
    import termios
    import tty

    def reader() -> Callable[[], list[str]]:
        """Something that waits for the next keys."""
        decoder = codecs.getincrementaldecoder("utf-8")("replace")

        def read() -> list[str]:
            pressed = os.read(sys.stdin.fileno(), READ_BYTES)
            if not pressed:
                raise EOFError
            return KEY.findall(decoder.decode(pressed))

        return read

    @contextmanager
    def single_keys() -> Iterator[None]:
        """While the block runs, the terminal gives keys one by one and shows none of them itself."""
        terminal = sys.stdin.fileno()
        before = termios.tcgetattr(terminal)

        def set_again(_signal: int = 0, _frame: FrameType | None = None) -> None:
            tty.setcbreak(terminal, termios.TCSADRAIN)

        set_again()
        continued = signal.signal(
            signal.SIGCONT, set_again
        )  # when the program was stopped, the shell set the terminal anew
        try:
            yield
        finally:
            signal.signal(signal.SIGCONT, continued)
            termios.tcsetattr(terminal, termios.TCSADRAIN, before)
