"""Says sentences with the pauses between them, to headphones, to a file, or to nobody."""

import threading
from collections.abc import Sequence
from pathlib import Path
from types import TracebackType

from voicecoach.describe.values import Sentence
from voicecoach.speak import loudness, pace, saying, stereo, voices
from voicecoach.speak.files import write_wav
from voicecoach.speak.headphones import Headphones
from voicecoach.speak.placing import FromJack
from voicecoach.speak.samples import join
from voicecoach.speak.values import Sound, StereoSound
from voicecoach.speak.voice import RATE_HZ, Voice


class Mouth:
    """A voice and where it goes: `device` names the headphones, None takes the default ones.

    With `silent` nothing is played, for a machine without headphones; rendering and saving still work.
    With `placed` each bowl is heard from where it lies, for which both ears must be covered.
    """

    def __init__(
        self,
        device: str | None = None,
        voice: Voice | None = None,
        silent: bool = False,
        placed: bool = False,
    ) -> None:
        self.voice = voice or Voice()
        self.headphones = None if silent else Headphones(device)
        self.placed = placed
        self.target_lufs = loudness.TARGET_LUFS

    def __enter__(self) -> "Mouth":
        self.voice.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def adjust(self, rate: int = 0, volume: int = 0, voice: str | None = None) -> None:
        """Set how many steps faster and louder than usual to speak (slower, softer when negative).

        Args:
            rate: Steps faster.
            volume: Steps louder.
            voice: Its name; None for the usual one.
        """
        self.voice.voice = voices.engine(voice)
        self.voice.words_per_minute = pace.stepped(rate)
        self.target_lufs = loudness.stepped(volume)

    def say(self, sentences: Sequence[Sentence], stopped: threading.Event | None = None) -> int:
        """Say them; the index of the first one not heard to its end, where "go on" resumes."""
        if self.headphones is None:
            return len(sentences)
        each = stereo.each if self.placed else saying.each
        pieces = self.headphones.play(each(sentences, self.voice, self.target_lufs), stopped)
        return (pieces + 1) // 2  # every second piece is a silence

    @property
    def speaks_through(self) -> str:
        """What the headphones are called."""
        return self.headphones.name if self.headphones else "nothing"

    def show(
        self,
        places: Sequence[FromJack],
        sides: Sequence[stereo.Piece],
        stopped: threading.Event | None = None,
    ) -> bool:
        """Play the sound picture of the head, if there are headphones; True when it was heard to its end."""
        if self.headphones is None:
            return False
        return self.headphones.play([stereo.picture(places, sides, self.target_lufs)], stopped) == 1

    def render(self, sentences: Sequence[Sentence]) -> Sound | StereoSound:
        """All of them as one sound, with the pauses between them."""
        if self.placed:
            return stereo.render(sentences, self.voice, self.target_lufs)
        sounds = list(saying.each(sentences, self.voice, self.target_lufs))
        rate_hz = sounds[0].rate_hz if sounds else RATE_HZ
        return Sound(samples=join([sound.samples for sound in sounds]), rate_hz=rate_hz)

    def save(self, sentences: Sequence[Sentence], path: Path) -> None:
        """Write them to a WAV file."""
        write_wav(self.render(sentences), path)

    def close(self) -> None:
        """End the voice."""
        self.voice.close()
