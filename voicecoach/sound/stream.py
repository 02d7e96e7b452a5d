"""A PortAudio stream that is started and ended without waiting for ever."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Any

from voicecoach.sound.bounded import stuck_after

ANSWER_S = 2.0
"""How long starting or ending a stream may take; it takes a few milliseconds, or for ever."""


class Stream:
    """Holds at most one open stream of a device.

    Attributes:
        hung: True once a call has hung: PortAudio can't be ended in good order any more.
    """

    def __init__(self) -> None:
        self._open: Any = None
        self._stuck: threading.Thread | None = None
        self.hung = False

    @property
    def stuck(self) -> bool:
        """True while a call to the device still hangs: the list of devices can't be read afresh then."""
        return self._stuck is not None and self._stuck.is_alive()

    @property
    def active(self) -> bool:
        """True while the device takes or gives sound."""
        return self._open is not None and bool(self._open.active)

    @property
    def latency_s(self) -> float:
        """How much sound the device holds, seconds."""
        return float(self._open.latency) if self._open is not None else 0.0

    def start(self, stream: Any) -> bool:
        """Start a new stream; False when the device doesn't answer. Raises what PortAudio raises."""
        self._open = stream
        self._call(stream.start)
        if self._stuck is not None:
            self._open = None  # ending it would hang as well
        return self._stuck is None

    def end(self) -> None:
        """Drop what the device holds, so that a stop is heard at once, and let it go."""
        stream, self._open = self._open, None
        if stream is not None:
            self._call(lambda: _let_go(stream))

    def _call(self, call: Callable[[], object]) -> None:
        self._stuck = stuck_after(ANSWER_S, call)
        self.hung = self.hung or self._stuck is not None


def _let_go(stream: Any) -> None:
    stream.abort(ignore_errors=True)
    stream.close(ignore_errors=True)
