"""The voice in one pair of headphones. It speaks in the background and can be cut off."""

from __future__ import annotations

import queue
import threading
from collections import deque
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from voicecoach import log_file
from voicecoach.describe import bodies
from voicecoach.describe.values import Sentence, Sentences
from voicecoach.errors import DeviceProblem, Problem
from voicecoach.head.values import Picture
from voicecoach.sound.clock import now_s
from voicecoach.speak.mouth import Mouth
from voicecoach.speak.voice import VoiceProblem

CUT_WITHIN_S = 0.3
"""How long to wait for the voice to fall silent; it takes a tenth of a second."""

SHORT = 2
"""A confirmation or a question has no more sentences than this."""

REMEMBERED = 8
"""How many of the last things said are remembered, to know the voice's own words in the microphone."""

FAILED = "The voice has failed."
BACK = {True: "The voice speaks again.", False: "The headphones are back."}
"""What is told once it speaks again; by whether it was the voice that had failed."""


@dataclass(frozen=True)
class Speech:
    """What is to be heard in one go: sentences, and the sound picture of a head after them."""

    sentences: Sentences = ()
    shown: Picture | None = None
    aside: Sentences = ()
    """What broke into it and is said first. "Go on" doesn't go on with that."""


class Speaking(threading.Thread):
    """Speaks what it is given, in order."""

    def __init__(self, mouth: Mouth, tell: Callable[[str], None], look_again: Callable[[], None]) -> None:
        super().__init__(name="speaking", daemon=True)
        self.mouth = mouth
        self._tell, self._look_again = tell, look_again
        self._waiting: queue.Queue[Speech] = queue.Queue()
        self._device = threading.Lock()
        self._stopped = threading.Event()
        self._leaving = threading.Event()
        self._silent = threading.Event()
        self._silent.set()
        self._now: Sentences = ()
        self._left: Sentences = ()
        self._aside: Sentences = ()
        self._gone = False
        self._voice_failed = False
        self._ended: deque[tuple[float, str]] = deque(maxlen=REMEMBERED)

    @property
    def saying(self) -> str:
        """The words that are being spoken; empty when it is silent."""
        return " ".join(sentence.text for sentence in self._now)

    def said_since(self, at_s: float) -> tuple[str, ...]:
        """All that was to be heard at that time or after it, on the clock of `sound.clock`."""
        ended = tuple(text for ended_s, text in tuple(self._ended) if ended_s >= at_s)
        return (*ended, self.saying) if self.saying else ended

    @property
    def reading(self) -> bool:
        """True while a list is being read. A new note may cut a list off, but not a confirmation."""
        return len(self._now) > SHORT

    def say(self, sentences: Sentences, shown: Picture | None = None) -> None:
        """Speak after what waits already; then play the sound picture of `shown`, if one is wanted."""
        if sentences or shown:
            self._silent.clear()
            self._waiting.put(Speech(sentences, shown))

    def cut(self) -> Sentence | None:
        """Fall silent at once. Returns the first sentence that was not spoken to its end, if any."""
        aside, self._aside = self._aside, ()
        self._left = ()
        dropped = self._empty()
        if not self._silent.is_set():
            self._stopped.set()
            self._silent.wait(CUT_WITHIN_S)
        self.say(aside)
        return next(iter(self._left or dropped), None)

    def say_aside(self, sentences: Sentences) -> None:
        """Say this at once. What it breaks into goes on afterwards, from the sentence that was broken off."""
        if self._silent.is_set():
            self.say(sentences)
        else:
            self._aside += sentences
            self._stopped.set()

    def leave(self) -> None:
        """Fall silent for good: nothing is said any more, and the thread ends once its headphones are shut.

        `cut` is no end: what was to break in is still said after it.
        """
        self._leaving.set()
        self._stopped.set()
        self._waiting.put(Speech())

    def finish(self, timeout_s: float) -> bool:
        """Wait until all has been spoken; False when it took too long."""
        return self._silent.wait(timeout_s)

    @contextmanager
    def device_let_go(self, within_s: float) -> Iterator[bool]:
        """Play nothing while the block runs; False where sentences were still under way by then.

        Args:
            within_s: How long to wait for them, seconds; a negative figure waits as long as it takes.
        """
        free = self._device.acquire(timeout=within_s)
        try:
            yield free
        finally:
            if free:
                self._device.release()

    def run(self) -> None:
        """Speak what comes, until told to leave."""
        while not self._leaving.is_set():
            speech: Speech | None = self._waiting.get()
            while speech is not None:
                self._now = speech.aside + speech.sentences
                self._stopped.clear()
                if self._leaving.is_set():  # told just before that
                    break
                self._speak(speech)
                self._ended.append((now_s(), self.saying))
                speech = self._after_aside(speech)
            self._now = ()
            if self._waiting.empty():
                self._silent.set()
        self._silent.set()

    def _after_aside(self, speech: Speech) -> Speech | None:
        """What is to be said after something broke into a speech: that first, then the rest of the speech."""
        aside, self._aside = self._aside, ()
        return Speech(self._left, speech.shown, aside) if aside else None

    def _speak(self, speech: Speech) -> None:
        try:
            self._play_or_look_again(speech)
        except Problem as problem:
            self._voice_failed = isinstance(problem, VoiceProblem)
            self._tell_once(str(problem))
        except Exception:  # whatever the sound library met, what comes next is spoken if it can be
            log_file.failed("speaking failed")
            self._voice_failed = True
            self._tell_once(FAILED)
        else:
            if self._gone:
                self._gone = False
                self._tell(BACK[self._voice_failed])

    def _play_or_look_again(self, speech: Speech) -> None:
        """Play it; where the headphones are away, see whether they have come back under another number."""
        try:
            self._play(speech)
        except VoiceProblem:
            raise  # no device is away, and the ears go on
        except DeviceProblem:
            if self._leaving.is_set():
                return
            self._look_again()
            self._play(speech)

    def _play(self, speech: Speech) -> None:
        with self._device:
            spoken = self.mouth.say(speech.aside + speech.sentences, self._stopped)
            if speech.shown is not None and not self._stopped.is_set():
                self.mouth.show(*bodies(speech.shown), self._stopped)
        self._left = speech.sentences[max(0, spoken - len(speech.aside)) :]

    def _tell_once(self, problem: str) -> None:
        """Say that nothing can be spoken: printed, with the terminal's bell, since the voice can't say it."""
        if not self._gone:
            self._gone = True
            self._tell(f"\a{problem} What is said is printed here.")

    def _empty(self) -> Sentences:
        dropped: Sentences = ()
        while not self._waiting.empty():
            dropped += self._waiting.get_nowait().sentences
        return dropped
