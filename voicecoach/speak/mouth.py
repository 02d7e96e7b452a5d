"""Says sentences: each in its place with its pause, to headphones, to a file, or to nobody."""

import threading
from collections.abc import Iterator, Sequence
from pathlib import Path
from types import TracebackType

from voicecoach.describe.values import Sentence
from voicecoach.speak.files import write_wav
from voicecoach.speak.headphones import Headphones
from voicecoach.speak.loudness import levelled
from voicecoach.speak.pace import pace
from voicecoach.speak.samples import join, silence
from voicecoach.speak.values import Sound
from voicecoach.speak.voice import RATE_HZ, Voice


class Mouth:
    """A voice and where it goes: `device` names headphones, None takes the default ones.

    With `silent` nothing is played, for a machine without headphones; rendering and saving still work.
    """

    def __init__(self, device: str | None = None, voice: Voice | None = None, silent: bool = False) -> None:
        self.voice = voice or Voice()
        self.headphones = None if silent else Headphones(device)

    def __enter__(self) -> "Mouth":
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def say(self, sentences: Sequence[Sentence], stopped: threading.Event | None = None) -> int:
        """Say them; the index of the first one not heard to its end, where "go on" resumes."""
        if self.headphones is None:
            return len(sentences)
        return (self.headphones.play(self._each(sentences), stopped) + 1) // 2

    def render(self, sentences: Sequence[Sentence]) -> Sound:
        """All of them as one sound, pauses between them included."""
        sounds = list(self._each(sentences))
        rate_hz = sounds[0].rate_hz if sounds else RATE_HZ
        return Sound(samples=join([sound.samples for sound in sounds]), rate_hz=rate_hz)

    def save(self, sentences: Sequence[Sentence], path: Path) -> None:
        """Write them to a WAV file."""
        write_wav(self.render(sentences), path)

    def close(self) -> None:
        """End the voice."""
        self.voice.close()

    def _each(self, sentences: Sequence[Sentence]) -> Iterator[Sound]:
        """Each sentence's sound, and between them the silence that follows each."""
        gaps = pace(self.voice.words_per_minute).gaps
        for number, sentence in enumerate(sentences, 1):
            sound = self.voice.render(sentence.text, within_s=sentence.within_s)
            yield Sound(samples=levelled(sound.samples, sound.rate_hz), rate_hz=sound.rate_hz)
            if number < len(sentences):
                yield Sound(samples=silence(sentence.pause_s * gaps, sound.rate_hz), rate_hz=sound.rate_hz)
