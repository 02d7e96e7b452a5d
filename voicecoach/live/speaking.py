"""The voice in one pair of headphones: speaks in the background, and can be cut off."""

from __future__ import annotations

import queue
import threading
from collections.abc import Callable

from voicecoach.describe.values import Sentence
from voicecoach.errors import DeviceProblem
from voicecoach.speak.mouth import Mouth

CUT_WITHIN_S = 0.3
"""How long to wait for the voice to fall silent; it takes a tenth of a second."""


class Speaking(threading.Thread):
    """Speaks what it is given, in order."""

    def __init__(self, mouth: Mouth, tell: Callable[[str], None]) -> None:
        super().__init__(name="speaking", daemon=True)
        self.mouth = mouth
        self._tell = tell
        self._waiting: queue.Queue[tuple[Sentence, ...]] = queue.Queue()
        self._stopped = threading.Event()
        self._silent = threading.Event()
        self._silent.set()
        self._now: tuple[Sentence, ...] = ()
        self._unfinished: Sentence | None = None
        self._gone = False

    @property
    def saying(self) -> str:
        """The words that are being spoken; empty when it is silent."""
        return " ".join(sentence.text for sentence in self._now)

    def say(self, sentences: tuple[Sentence, ...]) -> None:
        """Speak after what waits already."""
        if sentences:
            self._silent.clear()
            self._waiting.put(sentences)

    def cut(self) -> Sentence | None:
        """Fall silent at once; the first sentence that was not spoken to its end, if any."""
        self._unfinished = None
        dropped = self._empty()
        if not self._silent.is_set():
            self._stopped.set()
            self._silent.wait(CUT_WITHIN_S)
        return self._unfinished or (dropped[0] if dropped else None)

    def finish(self, timeout_s: float) -> bool:
        """Wait until all has been spoken; False when it took too long."""
        return self._silent.wait(timeout_s)

    def run(self) -> None:
        """Speak what comes, for as long as the program runs."""
        while True:
            self._now = self._waiting.get()
            self._stopped.clear()
            self._speak()
            self._now = ()
            if self._waiting.empty():
                self._silent.set()

    def _speak(self) -> None:
        try:
            spoken = self.mouth.say(self._now, self._stopped)
        except DeviceProblem as problem:
            if not self._gone:
                self._tell(f"{problem} What is said is printed here.")
            self._gone = True
            return
        if self._gone:
            self._tell("The headphones are back.")
        self._gone = False
        if spoken < len(self._now):
            self._unfinished = self._now[spoken]

    def _empty(self) -> tuple[Sentence, ...]:
        dropped: tuple[Sentence, ...] = ()
        while not self._waiting.empty():
            dropped += self._waiting.get_nowait()
        return dropped
