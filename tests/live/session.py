"""A live session in a process of its own, for tests: what it prints is followed as it comes."""

from __future__ import annotations

import os
import queue
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from types import TracebackType

from tests.virtual_sound import VirtualSound

HANGS_S = 120.0
"""What hasn't come by then never does, however busy the machine is; the benches measure how soon it comes."""
LISTEN = (sys.executable, "-u", "-m", "voicecoach", "listen")


@dataclass(frozen=True)
class Line:
    """A line that it printed."""

    text: str
    after_s: float
    """Seconds since the wait for it began."""


class LiveSession:
    """`voicecoach listen` on the virtual devices, from its first sound until it is told to stop."""

    def __init__(
        self,
        sound: VirtualSound,
        kept: Path | None,
        *options: str,
        keyboard: int = subprocess.PIPE,
        environment: Mapping[str, str] | None = None,
    ) -> None:
        """Start it.

        Args:
            sound: The devices.
            kept: The journal; None for today's, in the user's folder.
            options: Further options of the command.
            keyboard: Its standard input.
            environment: What is set in its environment beside what is set here.
        """
        devices = ["--microphone", sound.microphone, "--headphones", sound.headphones]
        journal = ["--journal", str(kept)] if kept else []
        self.process = subprocess.Popen(
            [*LISTEN, *journal, *devices, "--short-cautions", *options],
            env={**os.environ, **(environment or {})},
            stdin=keyboard,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        self.printed: list[str] = []
        self._lines: queue.Queue[str | None] = queue.Queue()
        self._reader = threading.Thread(target=self._read, daemon=True)
        self._reader.start()

    def __enter__(self) -> LiveSession:
        try:
            self.wait_for("Listening on")
        except AssertionError:
            self.end()
            raise
        return self

    def __exit__(
        self, kind: type[BaseException] | None, problem: BaseException | None, trace: TracebackType | None
    ) -> None:
        status = self.end()
        if kind is None:
            assert status == 0, (status, self.printed)

    def type(self, line: str) -> None:
        """Type a line."""
        assert self.process.stdin is not None
        self.process.stdin.write(line + "\n")
        self.process.stdin.flush()

    def wait_for(self, words: str, within_s: float = HANGS_S) -> Line:
        """The next line that holds these words."""
        began = time.monotonic()
        while (left := began + within_s - time.monotonic()) > 0:
            try:
                line = self._lines.get(timeout=left)
            except queue.Empty:
                break
            if line is None:
                self._lines.put(None)  # for whoever waits next
                raise AssertionError(f"{words!r} was not printed before it ended, but: {self.printed}")
            if words in line:
                return Line(line, time.monotonic() - began)
        raise AssertionError(f"{words!r} was not printed in {within_s} s, but: {self.printed}")

    def end(self) -> int | None:
        """Stop it as Control-C does; its exit status."""
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGINT)
        try:
            self.process.wait(timeout=HANGS_S)  # its last words are spoken before it ends
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()
        self._reader.join(timeout=5)
        for stream in (self.process.stdin, self.process.stdout):
            if stream is not None:
                stream.close()
        return self.process.returncode

    def _read(self) -> None:
        assert self.process.stdout is not None
        for line in self.process.stdout:
            self.printed.append(line.rstrip("\n"))
            self._lines.put(line)
        self._lines.put(None)
