"""Notices when a sound server moves one of our streams to another device.

PulseAudio and PipeWire do so by themselves when a device goes away, and PortAudio can't tell. Their own
tool `pactl` can. Where there is no such tool, nothing moves streams either.
"""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import threading
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

ANSWER_S = 2.0
"""How long the sound server may take to answer, seconds."""
ENDED_S = 1.0
"""How long to wait for the end of that tool, seconds. It takes a few milliseconds."""
SETTLE_S = 0.3
"""How long after its beginning a new stream is looked at, seconds: some are moved to their place at once."""


class ServerDevice(NamedTuple):
    """A microphone or a pair of headphones, as the sound server knows it."""

    name: str
    """The server's own name; it stays the same when the device comes back."""
    called: str
    """What people call it."""
    channels: int = 2
    rate_hz: int = 48_000
    """How much sound it carries, however much the sound library is given."""

    @property
    def is_one_ear(self) -> bool:
        """True for one channel, which is what a Bluetooth earpiece has while its microphone is on."""
        return self.channels == 1


class Watch(threading.Thread):
    """Follows the sound server's events, and tells the name of a device that our sound was moved to.

    Args:
        microphone_moved: Called when a microphone's stream hangs on another one.
        voice_moved: Called when the voice comes out of another device than before.
        voices: How many voices there are, each with headphones of its own.
        voice_arrived: Called when a voice is first heard from a device.
    """

    def __init__(
        self,
        microphone_moved: Callable[[str], None],
        voice_moved: Callable[[str], None],
        voices: Callable[[], int],
        voice_arrived: Callable[[ServerDevice], None],
    ) -> None:
        super().__init__(name="watching the sound server", daemon=True)
        self._microphone_moved = microphone_moved
        self._sources: frozenset[int] = frozenset()
        self._voice = VoiceWatch(voice_moved, voices, voice_arrived)
        self._server: subprocess.Popen[str] | None = None
        self._stopped = threading.Event()

    def remember(self) -> tuple[ServerDevice, ...]:
        """The microphones have just been opened: the sources they should stay on, and their places."""
        self._sources = frozenset(ours("source-output").values())
        known = devices("source") if self._sources else {}
        return tuple(known[source] for source in sorted(self._sources) if source in known)

    def run(self) -> None:
        """Follow events until the server ends, then wait until it is back."""
        while shutil.which("pactl") and not self._stopped.is_set():
            with subprocess.Popen(
                ["pactl", "subscribe"],
                stdin=subprocess.DEVNULL,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
                text=True,
            ) as self._server:
                if self._stopped.is_set():
                    self._server.terminate()
                assert self._server.stdout is not None
                for line in self._server.stdout:
                    self._mind(line)
            self._voice.forget()
            self._stopped.wait(1.0)

    def stop(self) -> None:
        """End the tool that follows the events for good, so that nothing of the program is left behind."""
        self._stopped.set()
        if self._server is not None:
            self._server.terminate()
        self.join(ENDED_S)

    def _mind(self, line: str) -> None:
        """An event of the sound server's has come."""
        if "source" in line:
            self._look()
        elif "sink-input" in line and "remove" not in line:
            self._voice.look_soon()

    def _look(self) -> None:
        now = frozenset(ours("source-output").values())
        others = now - self._sources
        if self._sources and others:
            self._sources = frozenset()
            device = devices("source").get(min(others))
            self._microphone_moved(device.called if device else "another")


class VoiceWatch:
    """Where the voice comes out. Its streams are short: there is one for each thing said."""

    def __init__(
        self,
        moved: Callable[[str], None],
        voices: Callable[[], int],
        arrived: Callable[[ServerDevice], None],
    ) -> None:
        self._moved, self._voices, self._arrived = moved, voices, arrived
        self._homes: list[str] = []
        """The devices it may come out of unasked, by name: one for each voice."""
        self._streams: dict[int, int] = {}
        self._devices: dict[int, ServerDevice] = {}
        self._due = threading.Event()

    def look_soon(self) -> None:
        """A stream has begun or changed. It is looked at once it has settled."""
        if not self._due.is_set():
            self._due.set()
            timer = threading.Timer(SETTLE_S, self._look)
            timer.daemon = True
            timer.start()

    def forget(self) -> None:
        """The sound server has ended, and its numbers mean nothing any more."""
        self._streams, self._devices = {}, {}

    def _look(self) -> None:
        self._due.clear()
        before, self._streams = self._streams, ours("sink-input")
        if not self._devices.keys() >= set(self._streams.values()):
            self._devices = devices("sink")
        for stream, sink in self._streams.items():
            device = self._devices.get(sink)
            if device is None or device.name in self._homes:
                continue
            left = self._devices.get(before.get(stream, sink))
            self._settle(device, left.name if left else "")

    def _settle(self, device: ServerDevice, left: str) -> None:
        """A device is new: either it is another voice's, or a voice has come to it from the one that it left.

        Where a new stream doesn't tell which voice it is, it is taken for the one that left its place last.
        """
        if left not in self._homes and len(self._homes) < self._voices():
            self._homes.append(device.name)
            self._arrived(device)
            return
        gone = left if left in self._homes else self._homes[-1]
        self._homes = [*(each for each in self._homes if each != gone), device.name]
        self._moved(device.called)
        self._arrived(device)


def ours(kind: str) -> dict[int, int]:
    """The device that each of this process's streams hangs on, by the server's numbers.

    Args:
        kind: `source-output` for microphones' streams, `sink-input` for the voice's.
    """
    device, own = kind.partition("-")[0], str(os.getpid())
    return {
        int(each["index"]): int(each[device])
        for each in _listed(f"{kind}s")
        if each.get("properties", {}).get("application.process.id") == own
    }


def in_use(kind: str) -> tuple[ServerDevice, ...]:
    """The devices that this process's streams of a kind (as in `ours`) hang on just now."""
    wanted = set(ours(kind).values())
    known = devices(kind.partition("-")[0]) if wanted else {}
    return tuple(known[each] for each in sorted(wanted) if each in known)


def devices(kind: str) -> dict[int, ServerDevice]:
    """Every device of a kind, `source` or `sink`, by the server's numbers."""
    return {
        int(each["index"]): ServerDevice(
            str(each["name"]), str(each.get("description") or each["name"]), *_specified(each)
        )
        for each in _listed(f"{kind}s")
    }


def _specified(device: Mapping[str, Any]) -> tuple[int, int]:
    """The channels and the rate (hertz) of a device, from what the server writes: `s16le 1ch 8000Hz`."""
    found = re.search(r"(\d+)ch (\d+)Hz", str(device.get("sample_specification", "")))
    return (int(found[1]), int(found[2])) if found else (2, 48_000)


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
