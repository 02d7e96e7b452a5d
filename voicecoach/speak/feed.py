"""What the sound thread asks for sound: it only copies, so that nothing can hold it up."""

import threading
import time
from collections import deque

import numpy as np

from voicecoach.speak.loudness import CEILING
from voicecoach.speak.values import Samples


class Feed:
    """A line of pieces waiting to be heard; cut at once when the listener says stop."""

    def __init__(self, channels: int) -> None:
        self._channels = channels
        self._waiting: deque[Samples] = deque()
        self._stopped: threading.Event | None = None
        self.queued = 0
        """Frames put in line since the last start."""
        self.given = 0
        """Frames of them handed to the device."""
        self.beat_at = time.monotonic()
        """When the device last asked."""
        self.beats = 0

    def start(self, stopped: threading.Event | None) -> None:
        """Begin anew, with an empty line."""
        self._waiting.clear()
        self._stopped = stopped
        self.queued = self.given = 0

    def put(self, samples: Samples) -> None:
        """Put a piece in line: one column for both ears alike, or left and right."""
        columns = samples.reshape(len(samples), -1)
        if self._channels == 1:
            columns = columns.mean(axis=1, keepdims=True)
        wide = np.repeat(columns, self._channels, axis=1) if columns.shape[1] == 1 else columns
        self.queued += len(wide)
        self._waiting.append(np.clip(wide, -CEILING, CEILING))

    def fill(self, block: Samples) -> None:
        """Fill the device's next block: called on the sound thread."""
        self.beats += 1
        self.beat_at = time.monotonic()
        block.fill(0)
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
        if self._stopped is not None and self._stopped.is_set():
            # A ramp down to nothing over one block: cut dead, a voice ends in a click.
            block *= np.linspace(1, 0, len(block), dtype=np.float32)[:, None] if filled else 0
            self._waiting.clear()
        else:
            self.given += filled
