"""A conversation of short answers, typed or spoken: for the round before play, and for practice."""

from __future__ import annotations

import queue
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import Protocol

import click

from voicecoach import kept_book
from voicecoach.coach.profile import Profile
from voicecoach.commands.showing import tell_on_the_side
from voicecoach.commands.telling import Teller
from voicecoach.describe.values import Sentence, Sentences
from voicecoach.hear.decodes import Book
from voicecoach.hear.ear import Ear, IsWhole
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.values import Heard
from voicecoach.live.beginning import begin
from voicecoach.live.devices import Devices
from voicecoach.live.echo import OwnVoice
from voicecoach.live.inputs import HeardFrom, Hush, Inputs, Listening, Notice, Pressed, Typing
from voicecoach.live.quiet import quiet_libraries
from voicecoach.live.speaking import Speaking
from voicecoach.model_store import model_path
from voicecoach.printed import put
from voicecoach.speak.mouth import Mouth
from voicecoach.understand.values import OpenQuestion

ASK_AGAIN_S = 60.0
"""How long an answer may take, seconds, before what was said last is said again."""
ASKED_TIMES = 5
"""How often it is said again before it is concluded that nobody is there."""
LAST_WORDS_S = 60.0
"""How long the last sentences may take to be spoken."""

microphone_option = click.option(
    "--microphone", metavar="DEVICE", help="Listen to this device, instead of typed answers."
)
headphones_option = click.option("--headphones", metavar="DEVICE", help="Speak to this device.")
silent_option = click.option("--silent", is_flag=True, help="Only print.")


class Asking(Protocol):
    """Says something and gives back the answers, one utterance after another."""

    def tell(
        self, sentences: Sequence[Sentence], open_: OpenQuestion | None = None, unprinted: int = 0, /
    ) -> None:
        """Print each sentence on a line of its own, and speak them.

        Args:
            sentences: What to say.
            open_: The question that is open then, if one is.
            unprinted: How many of the first sentences are to be remembered, so that none of them stays on the
                screen.
        """

    def answers(self) -> Iterator[Heard]:
        """What is said or typed, until nobody answers any more."""


@contextmanager
def asking(
    microphone: str | None,
    headphones: str | None,
    pair: Profile,
    *,
    silent: bool,
    book: Callable[[], Book],
    is_whole: IsWhole,
) -> Iterator[Asking]:
    """Typed answers; where a microphone is named, spoken ones as well. The voice is as the pair wants it."""
    mouth = Mouth(headphones or pair.headphones, silent=silent)
    mouth.adjust(rate=pair.rate or 0, volume=pair.volume or 0)
    if microphone is None:
        with Teller(mouth, must=headphones is not None) as teller:
            yield Typed(teller)
        return
    with quiet_libraries():
        spoken = Spoken(microphone, mouth, Recogniser(model_path(), book()), is_whole)
        try:
            spoken.begin()
            yield spoken
            spoken.voice.finish(LAST_WORDS_S)
        finally:
            spoken.devices.close()


class Typed:
    """Answers are lines of standard input."""

    def __init__(self, teller: Teller) -> None:
        self._teller = teller

    def tell(
        self, sentences: Sequence[Sentence], _open: OpenQuestion | None = None, unprinted: int = 0, /
    ) -> None:
        """See Asking. Where nothing can be spoken, they are printed until Enter is pressed."""
        kept = sentences[:unprinted]
        if kept and not self._teller.spoken(kept):
            put("\n".join(sentence.text for sentence in kept))
            self._wipe()
        self._teller.tell(sentences[unprinted:])

    def _wipe(self) -> None:
        """Clear a terminal once its reader is ready. Anything but a terminal keeps what was printed."""
        if sys.stdin.isatty() and sys.stdout.isatty():
            put("Press Enter when you have it.")
            sys.stdin.readline()
            click.clear()

    def answers(self) -> Iterator[Heard]:
        """See Asking."""
        for line in sys.stdin:
            if line.strip():
                yield Heard(text=line.strip())


class Spoken:
    """Answers come from a microphone, and the keyboard goes on working beside it."""

    def __init__(self, microphone: str, mouth: Mouth, recogniser: Recogniser, is_whole: IsWhole) -> None:
        self._inputs: Inputs = queue.Queue()
        self.devices = Devices()
        self.voice = Speaking(mouth, lambda message: self._inputs.put(Notice(message)), self.devices.refresh)
        self._ear = Listening(microphone, "director", Ear(recogniser, is_whole), self._inputs, self.devices)
        self.devices.ears, self.devices.voices = (self._ear,), (self.voice,)
        self._own_voice = OwnVoice(self.voice)
        self._said: Sentences = ()

    def begin(self) -> None:
        """Begin to listen. A microphone that gives nothing at all is told before anything else happens."""
        self.voice.start()
        begin((self._ear,), self._notify)
        self._notify(self._inputs.get())  # the device is named, right after its first sound
        Typing(self._inputs).start()

    def tell(
        self, sentences: Sequence[Sentence], open_: OpenQuestion | None = None, unprinted: int = 0, /
    ) -> None:
        """See Asking. It is spoken while the next answer is listened for."""
        self._ear.ear.expect(kept_book.load().answers(open_))
        put("\n".join(sentence.text for sentence in sentences[unprinted:]))
        self._said = tuple(sentences)
        self.voice.say(self._said)

    def answers(self) -> Iterator[Heard]:
        """See Asking. An answer cuts the voice off, and the voice itself is no answer.

        If no answer comes, what was said last is said again, and after a while the round ends.
        """
        unanswered = 0
        while unanswered <= ASKED_TIMES:
            try:
                item = self._inputs.get(timeout=ASK_AGAIN_S)
            except queue.Empty:
                unanswered += 1
                self.voice.say(self._said)
                continue
            if isinstance(item, Hush):
                self.voice.cut()
            elif isinstance(item, Notice | Pressed):
                self._notify(item)
            elif self._own_voice.judge(item.heard) == "none":
                self.voice.cut()
                unanswered = 0
                yield item.heard

    def _notify(self, item: HeardFrom | Notice | Hush | Pressed) -> None:
        """Print a notice and speak it."""
        if isinstance(item, Notice):
            tell_on_the_side(item.text)
            self.voice.say((Sentence(text=item.text.strip("\a")),))
