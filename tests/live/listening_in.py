"""Listening to the virtual headphones while they are recorded.

What is waited for has time enough on any machine: how soon it comes is measured by `make bench-speed`.
"""

import time
from bisect import bisect_left
from pathlib import Path

import numpy as np
import numpy.typing as npt

from tests.virtual_sound import RATE_HZ, Recording

FRAME = 4
"""Bytes: two channels of 16 bits."""
LOUD = 0.01
"""Of full scale: less is no voice."""
STEP = 480
"""Frames that are judged together, 10 ms."""
WITHIN_S = 120.0


def recorded(raw: Path, begin: int = 0, end: int | None = None) -> npt.NDArray[np.float32]:
    """What was recorded: frames by two, full scale at 1."""
    count = -1 if end is None else 2 * (end - begin)
    found = np.fromfile(raw, dtype="<i2", offset=begin * FRAME, count=count).astype(np.float32)
    found *= np.float32(1 / 32_768)
    return found[: found.size // 2 * 2].reshape(-1, 2)


class Ears:
    """Hears what arrives in the headphones; each frame is looked at once."""

    def __init__(self, recording: Recording) -> None:
        self.raw = recording.wav.with_suffix(".raw")  # grows while it is recorded
        self._plays = recording.plays
        self._heard = 0
        self._loud: list[int] = []

    def now(self) -> int:
        """The frame that is being recorded."""
        return self.raw.stat().st_size // FRAME

    def loud(self, begin: int = 0) -> list[int]:
        """Where there was sound at this frame or after it: a frame of each hundredth of a second."""
        end = self.now() // STEP * STEP
        if end > self._heard:
            steps = np.abs(recorded(self.raw, self._heard, end)).reshape(-1, 2 * STEP).max(axis=1)
            self._loud += (self._heard + STEP * np.flatnonzero(steps > LOUD)).tolist()
            self._heard = end
        return self._loud[bisect_left(self._loud, begin) :]

    def wait_for_sound(self, begin: int = 0, seconds: float = 0.0) -> None:
        """Wait until sound has begun at this frame or after it, and so long has passed since."""
        deadline = time.monotonic() + WITHIN_S
        while not (found := self.loud(begin)) or self.now() - found[0] < seconds * RATE_HZ:
            assert time.monotonic() < deadline, "nothing was heard"
            time.sleep(0.05)

    def wait_for_silence(self, seconds: float) -> None:
        """Wait until nothing has been heard for so long, from now on."""
        begin = self.now()
        self.wait_until_over(begin, seconds, must_begin=False)

    def wait_until_over(self, begin: int, seconds: float, must_begin: bool = True) -> None:
        """Wait until sound has begun at this frame or after it, and nothing has been heard for so long.

        While a stream is open it isn't over: on a busy machine a sentence may come late.
        """
        deadline = time.monotonic() + WITHIN_S
        while True:
            found = self.loud(begin)
            last = found[-1] if found else begin
            silent = (found or not must_begin) and self._heard - last > seconds * RATE_HZ
            if silent and not self._plays():
                return
            assert time.monotonic() < deadline, "nothing was heard, or it never fell silent"
            time.sleep(0.05)

    def span_s(self) -> float:
        """Seconds from the first sound to the last; nought where there is none."""
        found = self.loud()
        return (found[-1] - found[0]) / RATE_HZ if found else 0.0
