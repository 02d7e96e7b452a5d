"""The voice in one pair of headphones: speaks in the background, and can be cut off."""

from __future__ import annotations

import queue
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from voicecoach.describe import bodies
from voicecoach.describe.values import Sentence
from voicecoach.errors import DeviceProblem, Problem
from voicecoach.head.values import Picture
from voicecoach.speak.mouth import Mouth

CUT_WITHIN_S = 0.3
"""How long to wait for the voice to fall silent; it takes a tenth of a second."""

SHORT = 2
"""A confirmation or a question has no more sentences than this."""


@dataclass(frozen=True)
class Speech:
    """What is to be heard in one go: sentences, and the sound picture of a head after them."""

    sentences: tuple[Sentence, ...] = ()
    shown: Picture | None = None


class Speaking(threading.Thread):
    """Speaks what it is given, in order."""

    def __init__(self, mouth: Mouth, tell: Callable[[str], None], look_again: Callable[[], None]) -> None:
        super().__init__(name="speaking", daemon=True)
        self.mouth = mouth
        self._tell, self._look_again = tell, look_again
        self._waiting: queue.Queue[Speech] = queue.Queue()
        self._device = threading.Lock()
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

    @property
    def reading(self) -> bool:
        """True while a list is being read: that may be cut by a new note, a confirmation may not."""
        return len(self._now) > SHORT

    def say(self, sentences: tuple[Sentence, ...], shown: Picture | None = None) -> None:
        """Speak after what waits already; then play the sound picture of `shown`, if one is wanted."""
        if sentences or shown:
            self._silent.clear()
            self._waiting.put(Speech(sentences, shown))

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

    @contextmanager
    def device_let_go(self) -> Iterator[None]:
        """Nothing is played while the block runs; waits for the sentences under way."""
        with self._device:
            yield

    def run(self) -> None:
        """Speak what comes, for as long as the program runs."""
        while True:
            speech = self._waiting.get()
            self._now = speech.sentences
            self._stopped.clear()
            self._speak(speech)
            self._now = ()
            if self._waiting.empty():
                self._silent.set()

    def _speak(self, speech: Speech) -> None:
        try:
            self._play_or_look_again(speech)
        except Problem as problem:
            self._tell_once(problem)
        else:
            if self._gone:
                self._gone = False
                self._tell("The headphones are back.")

    def _play_or_look_again(self, speech: Speech) -> None:
        """Play it; where the headphones are away, see whether they have come back under another number."""
        try:
            self._play(speech)
        except DeviceProblem:
            self._look_again()
            self._play(speech)

    def _play(self, speech: Speech) -> None:
        with self._device:
            spoken = self.mouth.say(speech.sentences, self._stopped)
            if speech.shown is not None and not self._stopped.is_set():
                self.mouth.show(*bodies(speech.shown), self._stopped)
        if spoken < len(speech.sentences):
            self._unfinished = speech.sentences[spoken]

    def _tell_once(self, problem: Problem) -> None:
        """Say that nothing can be spoken: printed, with the terminal's bell, since the voice can't say it."""
        if not self._gone:
            self._gone = True
            self._tell(f"\a{problem} What is said is printed here.")

    def _empty(self) -> tuple[Sentence, ...]:
        dropped: tuple[Sentence, ...] = ()
        while not self._waiting.empty():
            dropped += self._waiting.get_nowait().sentences
        return dropped
