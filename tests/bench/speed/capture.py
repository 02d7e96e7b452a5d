"""Records what goes into the virtual microphone and what comes to the headphones, on one clock."""

from __future__ import annotations

import os
import subprocess
import threading
import time
from types import TracebackType

import numpy as np
import numpy.typing as npt

from tests.virtual_sound import RATE_HZ, NoSoundServer, VirtualSound

Samples = npt.NDArray[np.float32]
FRAMES_READ = 480
LOUD = 0.01
"""Full scale is 1: voices peak at 0.1 and more, the virtual devices are silent to the last bit."""


class Line:
    """One of the two lines, recorded from the moment it is made."""

    def __init__(self, sound: VirtualSound, source: str) -> None:
        order = ["parec", f"--device={source}", "--format=s16le", f"--rate={RATE_HZ}", "--channels=1"]
        self._recorder = subprocess.Popen(
            [*order, "--latency-msec=10"], env={**os.environ, **sound.environment}, stdout=subprocess.PIPE
        )
        self._pieces: list[bytes] = []
        self._frames = 0
        self._began_s = float("inf")
        self._flows = threading.Event()
        self._reader = threading.Thread(target=self._read, daemon=True)
        self._reader.start()
        if not self._flows.wait(20):
            raise NoSoundServer(f"nothing can be recorded from {source}")

    def _read(self) -> None:
        assert self._recorder.stdout is not None
        while piece := self._recorder.stdout.read(FRAMES_READ * 2):
            self._pieces.append(piece)
            self._frames += len(piece) // 2
            # A piece may come late but never early: the earliest one tells when the line began.
            self._began_s = min(self._began_s, time.monotonic() - self._frames / RATE_HZ)
            self._flows.set()

    def loud_from_to(self, after_s: float) -> tuple[float, float] | None:
        """The first and last loud moment after a moment, on this machine's clock; None if all is quiet."""
        samples = np.frombuffer(b"".join(list(self._pieces)), "<i2").astype(np.float32) / 32768
        first = max(0, round((after_s - self._began_s) * RATE_HZ))
        loud = np.flatnonzero(np.abs(samples[first:]) > LOUD)
        if not loud.size:
            return None
        start_s = self._began_s + first / RATE_HZ
        return start_s + loud[0] / RATE_HZ, start_s + loud[-1] / RATE_HZ

    def end(self) -> None:
        """Stop recording."""
        self._recorder.terminate()
        self._recorder.wait()
        self._reader.join()
        if self._recorder.stdout is not None:
            self._recorder.stdout.close()


class Capture:
    """Both lines, inside a `with`."""

    def __init__(self, sound: VirtualSound) -> None:
        self.spoken = Line(sound, "spoken.monitor")
        self.answered = Line(sound, "headphones.monitor")

    def __enter__(self) -> Capture:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, value: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.spoken.end()
        self.answered.end()
