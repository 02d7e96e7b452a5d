"""A helper process from the parent's side: start it, ask it within a time limit, end it."""

import contextlib
import json
import queue
import subprocess
import sys
import tempfile
import threading
import weakref
from collections.abc import Sequence
from pathlib import Path
from typing import Any

COMMAND = (sys.executable, "-m", "voicecoach.speak.voice_worker")


class HelperFailed(Exception):
    """The helper process died, hung, or answered that it failed."""


class Helper:
    """A running helper process."""

    def __init__(self, command: Sequence[str] = COMMAND, options: Sequence[str] = ()) -> None:
        self._folder = tempfile.TemporaryDirectory(prefix="voicecoach-", ignore_cleanup_errors=True)
        self._log = Path(self._folder.name) / "errors.txt"
        with self._log.open("wb") as log:
            self._process = subprocess.Popen(
                [*command, self._folder.name, *options],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=log,
                text=True,
                encoding="utf-8",
            )
        self._ready = False
        self._answers: queue.Queue[str] = queue.Queue()
        reader = threading.Thread(target=_read, args=(self._process, self._answers), daemon=True)
        reader.start()
        # This also runs at the end of the program, and where an owner forgets to call it.
        self.end = weakref.finalize(self, _end, self._process, reader, self._folder)
        """End the process, whatever state it is in, and remove its files."""

    @property
    def pid(self) -> int:
        """The helper's process number."""
        return self._process.pid

    def ready(self, timeout_s: float) -> None:
        """Wait until the helper has said that it is ready. It says so only once."""
        if not self._ready:
            self._next(timeout_s)
            self._ready = True

    def ask(self, request: dict[str, Any], timeout_s: float) -> dict[str, Any]:
        """Send a request and wait for its answer."""
        assert self._process.stdin is not None
        try:
            self._process.stdin.write(json.dumps(request) + "\n")
            self._process.stdin.flush()
        except OSError as error:
            raise HelperFailed(f"the voice's process is gone ({self._last_words()})") from error
        return self._next(timeout_s)

    def _next(self, timeout_s: float) -> dict[str, Any]:
        try:
            line = self._answers.get(timeout=timeout_s)
        except queue.Empty as error:
            raise HelperFailed(f"the voice gave nothing for {timeout_s:.0f} seconds") from error
        if not line:
            raise HelperFailed(f"the voice's process ended ({self._last_words()})")
        try:
            answer = json.loads(line)
        except ValueError as error:
            raise HelperFailed("the voice's answer makes no sense") from error
        if not isinstance(answer, dict) or "error" in answer:
            raise HelperFailed(f"the voice failed: {answer}")
        return answer

    def _last_words(self) -> str:
        lines = self._log.read_text(errors="replace").strip().splitlines() if self._log.exists() else []
        return lines[-1] if lines else "it left no message"


def _read(process: "subprocess.Popen[str]", answers: "queue.Queue[str]") -> None:
    """Hand over each line as it comes, and an empty one at the end."""
    assert process.stdout is not None
    for line in process.stdout:
        answers.put(line)
    answers.put("")


def _end(
    process: "subprocess.Popen[str]", reader: threading.Thread, folder: "tempfile.TemporaryDirectory[str]"
) -> None:
    process.kill()
    process.wait()
    reader.join()
    for stream in (process.stdin, process.stdout):
        if stream is not None:
            with contextlib.suppress(OSError):  # what was still to be written is of no use to a dead process
                stream.close()
    folder.cleanup()
