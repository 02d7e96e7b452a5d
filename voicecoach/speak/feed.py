"""Hands sound to the sound thread. It only copies, so that nothing can hold that thread up."""

import threading
import time
from bisect import bisect_right

import numpy as np

from voicecoach.speak.loudness import CEILING
from voicecoach.speak.values import Samples

KEPT = 4
"""Pieces kept after they were handed over, in case the device didn't play them."""


class Feed:
    """A queue of pieces waiting to be heard. It is emptied at once when the listener says stop."""

    def __init__(self, channels: int, stopped: threading.Event | None = None) -> None:
        self._channels = channels
        self._stopped = stopped
        self._pieces: list[Samples] = []
        self._ends: list[int] = []
        self.queued = 0
        """Frames put into the queue."""
        self.given = 0
        """Frames of them handed to the device."""
        self.asked_at = time.monotonic()
        """When the device last asked for a block."""

    def put(self, samples: Samples) -> None:
        """Put a piece into the queue: one column for both ears alike, or left and right."""
        columns = samples[:, None] if samples.ndim == 1 else samples
        if self._channels == 1:
            columns = columns.mean(axis=1, keepdims=True)
        wide = np.repeat(columns, self._channels, axis=1) if columns.shape[1] == 1 else columns
        self.queued += len(wide)
        self._pieces.append(np.clip(wide, -CEILING, CEILING))
        self._ends.append(self.queued)

    def heard(self, held: int) -> int:
        """How many pieces were heard to their end, given the frames that the device still holds."""
        return sum(end <= self.given - held for end in self._ends)

    def back_to(self, given: int) -> None:
        """Hand over again what was handed over but not heard."""
        self.given = given

    def fill(self, block: Samples) -> None:
        """Fill the device's next block: called on the sound thread."""
        self.asked_at = time.monotonic()
        block.fill(0)
        if not self._ends or (self._stopped is not None and self._stopped.is_set()):
            return
        filled = 0
        while filled < len(block) and self.given < self._ends[-1]:
            filled += self._copy(block[filled:])

    def _copy(self, block: Samples) -> int:
        """Hand over what is next, up to the end of its piece."""
        number = bisect_right(self._ends, self.given)
        piece = self._pieces[number]
        start = self.given - (self._ends[number] - len(piece))
        count = min(len(piece) - start, len(block))
        block[:count] = piece[start : start + count]
        self.given += count
        if number >= KEPT:
            self._pieces[number - KEPT] = piece[:0]
        return count
