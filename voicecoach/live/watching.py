"""Notices when a sound server moves our microphone's stream to another microphone.

PulseAudio and PipeWire do so by themselves when a device goes away, and PortAudio can't tell. Their own
tool `pactl` can; where there is none, nothing moves streams either.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import threading
from collections.abc import Callable
from typing import Any

ANSWER_S = 2.0
"""How long the sound server may take to answer, seconds."""


class Watch(threading.Thread):
    """Follows the sound server's events, and calls `moved` when our stream hangs on another source."""

    def __init__(self, moved: Callable[[], None]) -> None:
        super().__init__(name="watching the sound server", daemon=True)
        self._moved = moved
        self._sources: frozenset[int] = frozenset()
        self._server: subprocess.Popen[str] | None = None

    def remember(self) -> None:
        """The microphones have just been opened: these are the sources they should stay on."""
        self._sources = our_sources()

    def run(self) -> None:
        """Follow events until the server ends; then until it is back."""
        while shutil.which("pactl"):
            self._server = subprocess.Popen(
                ["pactl", "subscribe"],
                stdin=subprocess.DEVNULL,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
                text=True,
            )
            assert self._server.stdout is not None
            for line in self._server.stdout:
                if "source" in line:
                    self._look()
            self._server.wait()
            threading.Event().wait(1.0)

    def stop(self) -> None:
        """End the tool that follows the events."""
        if self._server is not None:
            self._server.terminate()

    def _look(self) -> None:
        now = our_sources()
        if self._sources and now and not now <= self._sources:
            self._sources = frozenset()
            self._moved()


def our_sources() -> frozenset[int]:
    """The sources that this process's streams hang on, by the server's own numbers; none without a server."""
    outputs = _listed("source-outputs")
    ours = str(os.getpid())
    return frozenset(
        int(each["source"])
        for each in outputs
        if each.get("properties", {}).get("application.process.id") == ours
    )


def _listed(what: str) -> list[dict[str, Any]]:
    if not shutil.which("pactl"):
        return []
    try:
        answer = subprocess.run(
            ["pactl", "--format=json", "list", what],
            capture_output=True,
            text=True,
            check=True,
            timeout=ANSWER_S,
        )
        found = json.loads(answer.stdout or "[]")
    except (OSError, subprocess.SubprocessError, ValueError):
        return []
    return found if isinstance(found, list) else []
