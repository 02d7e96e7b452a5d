"""Prints every sentence, and speaks it where there are headphones."""

from __future__ import annotations

from collections.abc import Sequence
from types import TracebackType

from voicecoach import describe
from voicecoach.commands.showing import tell_on_the_side
from voicecoach.describe.values import Sentence
from voicecoach.errors import DeviceProblem
from voicecoach.head.values import Picture
from voicecoach.printed import put
from voicecoach.speak.mouth import Mouth


class Teller:
    """Prints and speaks. Without headphones it says so once and goes on printing.

    With `must`, missing headphones are an error, because somebody named the device.
    """

    def __init__(self, mouth: Mouth, *, must: bool = False) -> None:
        self._mouth, self._must = mouth, must
        self._gone = False

    def __enter__(self) -> Teller:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, problem: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._mouth.close()

    def tell(self, sentences: Sequence[Sentence]) -> None:
        """Print each sentence on a line of its own, and speak them."""
        put("\n".join(sentence.text for sentence in sentences))
        self.speak(sentences)

    def spoken(self, sentences: Sequence[Sentence]) -> bool:
        """Speak them without printing them; False where there is nothing to speak through."""
        if self._mouth.headphones is None:
            return False
        self.speak(sentences)
        return not self._gone

    def speak(self, sentences: Sequence[Sentence], shown: Picture | None = None) -> None:
        """Speak what is printed already, or play the sound picture of `shown` in its place."""
        if self._gone:
            return
        try:
            if shown is None:
                self._mouth.say(sentences)
            else:
                self._mouth.show(*describe.bodies(shown))
        except DeviceProblem as problem:
            if self._must:
                raise
            self._gone = True
            told = str(problem)
            tell_on_the_side(told if "printed" in told else f"{told} The words are printed.")
