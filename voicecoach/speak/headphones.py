"""Plays samples to headphones through sounddevice, can be cut short, and notices when they go away."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterable
from types import TracebackType
from typing import Any

from voicecoach.errors import DeviceProblem
from voicecoach.speak.devices import Device, named, sound_library
from voicecoach.speak.feed import Feed
from voicecoach.speak.samples import resample
from voicecoach.speak.values import Samples, Sound, StereoSound

LATENCY_S = 0.04
"""Sound held by the device: enough for a busy machine, short enough to stop within a tenth of a second."""
AHEAD_S = 1.0
"""Pieces are put in line this long before they are due."""
LOOK_S = 0.01
FIRST_S = 5.0
"""How long the first block may take: a sound server that has just started is slow."""
BEAT_S = 0.8
"""Blocks are asked for every few hundredths of a second; after this long the device is gone."""


class Headphones:
    """Headphones that stay open between sentences, since opening them costs time; close them at the end."""

    def __init__(self, device: str | None = None) -> None:
        self._wanted = device
        self._stream: Any = None
        self._feed = Feed(channels=1)
        self._finished = False
        self.device: Device | None = None

    def __enter__(self) -> Headphones:
        self.open()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    @property
    def name(self) -> str:
        """The device's own name, to be said aloud: another one is never taken silently."""
        return self.device.name if self.device else self._wanted or "the default headphones"

    def open(self) -> None:
        """Open the device, unless it is open."""
        if self._stream is not None and self._stream.active and not self._finished:
            return
        self.close()
        library = sound_library()
        self.device = named(library, self._wanted)
        self._feed = Feed(self.device.channels)
        self._finished = False
        try:
            self._stream = library.OutputStream(
                device=self.device.index,
                samplerate=self.device.rate_hz,
                channels=self.device.channels,
                dtype="float32",
                latency=LATENCY_S,
                callback=self._asked,
                finished_callback=self._ended,
            )
            self._stream.start()
        except library.PortAudioError as problem:
            self.close()
            raise DeviceProblem(
                f"The headphones {self.name} can't be opened: {problem}. "
                "Close other programs that use them, or choose others with --headphones."
            ) from problem

    def close(self) -> None:
        """Let the device go."""
        stream, self._stream = self._stream, None
        if stream is not None:
            stream.abort(ignore_errors=True)
            stream.close(ignore_errors=True)

    def play(self, pieces: Iterable[Sound | StereoSound], stopped: threading.Event | None = None) -> int:
        """Play the pieces one after the other; how many were heard to their end before `stopped` was set."""
        self.open()
        assert self.device is not None
        feed, ends, waiting = self._feed, [0], iter(pieces)
        feed.start(stopped)
        more = True
        while stopped is None or not stopped.is_set():
            self._check()
            if more and feed.queued - feed.given < AHEAD_S * self.device.rate_hz:
                more = self._put(next(waiting, None))
                ends += [feed.queued] if more else []
            elif feed.given >= feed.queued:
                time.sleep(self._held_s)
                break
            else:
                time.sleep(LOOK_S)
        return sum(end <= feed.given for end in ends[1:])

    def _put(self, piece: Sound | StereoSound | None) -> bool:
        assert self.device is not None
        if piece is None:
            return False
        self._feed.put(resample(piece.samples, piece.rate_hz, self.device.rate_hz))
        return True

    @property
    def _held_s(self) -> float:
        """How long after the device has taken a sample it is heard."""
        return min(float(self._stream.latency), 1.0)

    def _asked(self, block: Samples, count: int, when: Any, status: Any) -> None:
        self._feed.fill(block)

    def _ended(self) -> None:
        self._finished = True

    def _check(self) -> None:
        """Raise once the device has gone; it says nothing itself."""
        quiet_s = time.monotonic() - self._feed.beat_at
        gone = self._finished or self._stream is None or not self._stream.active
        if gone or quiet_s > (BEAT_S if self._feed.beats else FIRST_S):
            self.close()
            raise DeviceProblem(
                f"The headphones {self.name} have gone: they take no sound any more. "
                "Plug them in again or choose others with --headphones."
            )
