"""What the sound thread asks for sound: it only copies, so that nothing can hold it up."""

import threading
import time
from collections import deque

import numpy as np

from voicecoach.speak.loudness import CEILING
from voicecoach.speak.values import Samples


class Feed:
    """A line of pieces waiting to be heard; empty at once when the listener says stop."""

    def __init__(self, channels: int, stopped: threading.Event | None = None) -> None:
        self._channels = channels
        self._stopped = stopped
        self._waiting: deque[Samples] = deque()
        self._ends: list[int] = []
        self.queued = 0
        """Frames put in line."""
        self.given = 0
        """Frames of them handed to the device."""
        self.asked_at = time.monotonic()
        """When the device last asked for a block."""

    def put(self, samples: Samples) -> None:
        """Put a piece in line: one column for both ears alike, or left and right."""
        columns = samples.reshape(len(samples), -1)
        if self._channels == 1:
            columns = columns.mean(axis=1, keepdims=True)
        wide = np.repeat(columns, self._channels, axis=1) if columns.shape[1] == 1 else columns
        self.queued += len(wide)
        self._ends.append(self.queued)
        self._waiting.append(np.clip(wide, -CEILING, CEILING))

    def heard(self, held: int) -> int:
        """How many pieces were heard to their end, when the device still holds so many frames."""
        return sum(end <= self.given - held for end in self._ends)

    def fill(self, block: Samples) -> None:
        """Fill the device's next block: called on the sound thread."""
        self.asked_at = time.monotonic()
        block.fill(0)
        if self._stopped is not None and self._stopped.is_set():
            self._waiting.clear()
        filled = 0
        while filled < len(block) and self._waiting:
            piece = self._waiting[0]
            count = min(len(piece), len(block) - filled)
            block[filled : filled + count] = piece[:count]
            filled += count
            if count == len(piece):
                self._waiting.popleft()
            else:
                self._waiting[0] = piece[count:]
        self.given += filled
