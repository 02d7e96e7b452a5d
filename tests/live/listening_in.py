"""Listening to the virtual headphones while they are recorded.

What is waited for has time enough on any machine: how soon it comes is measured by `make bench-speed`.
"""

import time
from pathlib import Path

import numpy as np
import numpy.typing as npt

from tests.virtual_sound import RATE_HZ, Recording

FRAME = 4
"""Bytes: two channels of 16 bits."""
LOUD = 0.01
"""Of full scale: less is no voice."""
WITHIN_S = 120.0


def frames(raw: Path) -> int:
    """How many have been recorded."""
    return raw.stat().st_size // FRAME


def recorded(raw: Path, begin: int = 0, end: int | None = None) -> npt.NDArray[np.float32]:
    """What was recorded: frames by two, full scale at 1."""
    count = -1 if end is None else 2 * (end - begin)
    found = np.fromfile(raw, dtype="<i2", offset=begin * FRAME, count=count).astype(np.float32)
    found *= np.float32(1 / 32_768)
    return found[: found.size // 2 * 2].reshape(-1, 2)


def loud(raw: Path, begin: int = 0) -> npt.NDArray[np.intp]:
    """The frames with sound, counted from `begin`."""
    return np.flatnonzero(np.abs(recorded(raw, begin)).max(axis=1, initial=0.0) > LOUD)


class Ears:
    """Hears what arrives in the headphones."""

    def __init__(self, recording: Recording) -> None:
        self._raw = recording.wav.with_suffix(".raw")  # grows while it is recorded

    def now(self) -> int:
        """The frame that is being recorded."""
        return frames(self._raw)

    def wait_for_sound(self, begin: int = 0) -> None:
        """Wait until there was sound at this frame or after it."""
        deadline = time.monotonic() + WITHIN_S
        while not loud(self._raw, begin).size:
            assert time.monotonic() < deadline, "nothing was heard"
            time.sleep(0.05)

    def wait_for_silence(self, seconds: float) -> None:
        """Wait until nothing has been heard for so long, from now on."""
        deadline, begin = time.monotonic() + WITHIN_S, self.now()
        length = round(seconds * RATE_HZ)
        while self.now() - begin < length or loud(self._raw, self.now() - length).size:
            assert time.monotonic() < deadline, "it never fell silent"
            time.sleep(0.05)

    def span_s(self) -> float:
        """Seconds from the first sound to the last; nought where there is none."""
        found = loud(self._raw)
        return float(found[-1] - found[0]) / RATE_HZ if found.size else 0.0
