"""Sentences as short sounds for a page: each clause once, and for each sentence the clauses in order."""

import io
from collections.abc import Iterable
from concurrent.futures import Future, ThreadPoolExecutor
from types import TracebackType

from voicecoach.describe.values import Sentence
from voicecoach.sound.libraries import library
from voicecoach.speak.pace import pace
from voicecoach.speak.samples import resample
from voicecoach.speak.values import Sound
from voicecoach.speak.voice import Voice, gap_s, split

soundfile = library("soundfile")

RATE_HZ = 24_000
SMALL = 0.8
"""How hard MP3 is compressed, 0 to 1: about 7 kB a second. Of 312 pieces of 96 sentences our recogniser then
hears 6 wrongly, as of the voice itself (7); at 0.9 it is 8, at 0.97 it is 51."""

Playing = tuple[tuple[int, int], ...]
"""Numbers of clips, each with the silence that follows it, milliseconds."""


class Clips:
    """Renders clauses in the background while more are asked for; close it, or use `with`."""

    def __init__(self, voice: Voice | None = None) -> None:
        self._voice = voice or Voice()
        self._work = ThreadPoolExecutor(max_workers=2)
        self._numbers: dict[str, int] = {}
        self._made: list[Future[bytes]] = []

    def playing(self, sentences: Iterable[Sentence]) -> Playing:
        """What to play for these sentences."""
        gaps = pace(self._voice.words_per_minute).gaps
        order: list[tuple[int, int]] = []
        for sentence in sentences:
            clauses = split(sentence.text)
            for clause in clauses:
                silent_s = sentence.pause_s if clause is clauses[-1] else gap_s(clause)
                order.append((self._number(clause), round(1000 * silent_s * gaps)))
        return tuple(order)

    def files(self) -> list[bytes]:
        """The clips as MP3 files, by number.

        Raises:
            Problem: The voice can't speak.
        """
        return [made.result() for made in self._made]

    def close(self) -> None:
        """End the voice."""
        self._work.shutdown(cancel_futures=True)
        self._voice.close()

    def __enter__(self) -> "Clips":
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def _number(self, clause: str) -> int:
        if clause not in self._numbers:
            self._numbers[clause] = len(self._made)
            self._made.append(self._work.submit(self._make, clause))
        return self._numbers[clause]

    def _make(self, clause: str) -> bytes:
        return as_mp3(self._voice.render(clause))


def as_mp3(sound: Sound) -> bytes:
    """One small file that every browser plays."""
    file = io.BytesIO()
    samples = resample(sound.samples, sound.rate_hz, RATE_HZ)
    soundfile.write(file, samples, RATE_HZ, format="MP3", subtype="MPEG_LAYER_III", compression_level=SMALL)
    return file.getvalue()
