"""A microphone that is opened while the rest of the program is still loaded."""

from __future__ import annotations

import threading

from voicecoach import leaving
from voicecoach.errors import DeviceProblem
from voicecoach.hear.microphone import Microphone

OPENED_S = 10.0
"""How long a microphone that is no longer wanted may take to be opened, seconds; mostly it takes two."""


class EarlyMicrophone(Microphone):
    """Opens at once, in the background, since the first sound of a microphone takes up to two seconds.

    The first `with` takes over what is open, with the sound since then. Later ones open it anew.
    """

    def __init__(self, device: str | None = None) -> None:
        super().__init__(device)
        self._problem: DeviceProblem | None = None
        self._opening: threading.Thread | None = threading.Thread(
            target=self._open, name="opening a microphone", daemon=True
        )
        self._opening.start()

    def __enter__(self) -> Microphone:
        opening, self._opening = self._opening, None
        if opening is None:
            return super().__enter__()
        opening.join()
        if self._problem:
            raise self._problem
        return self

    def let_go(self) -> None:
        """Close it if nobody has taken it over. The program must not end while it is being opened."""
        opening, self._opening = self._opening, None
        if opening is not None:
            opening.join(OPENED_S)
            if opening.is_alive():
                leaving.at_once()
            else:
                self.stream.end()

    def _open(self) -> None:
        try:
            super().__enter__()
        except DeviceProblem as problem:
            self._problem = problem  # told where the microphone is taken over
