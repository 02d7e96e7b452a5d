"""The spoken corpus: every voice's lines as audio, made once and kept."""

from __future__ import annotations

import hashlib
import random
import sys
import zlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from tests.bench.hearing.engines import available, save, speak
from tests.bench.hearing.lines import Line, lines
from tests.bench.hearing.places import SPEECH
from tests.bench.hearing.voices import VOICES, Voice
from voicecoach.hear.blocks import Samples
from voicecoach.hear.recordings import load

_EDGE = 10 ** (-45 / 20)
"""Quieter than this before the first and after the last sound is not speech."""


@dataclass(frozen=True)
class Clip:
    """One line as one voice says it."""

    voice: Voice
    line: Line
    speed: float

    @property
    def path(self) -> Path:
        """Where its sound is kept."""
        said = hashlib.sha256(f"{self.line.text}|{self.speed}".encode()).hexdigest()[:16]
        return SPEECH / self.voice.key / f"{said}.flac"

    def sound(self) -> Samples:
        """Its samples, from the first sound to the last."""
        return load(self.path)


def clips(voices: tuple[Voice, ...] = VOICES) -> list[Clip]:
    """The whole corpus, spoken or not yet, in an order that mixes voices and lines."""
    every = [clip for voice in voices for clip in _of(voice)]
    random.Random(5).shuffle(every)
    return every


def spoken() -> list[Clip]:
    """What has been spoken before, and kept."""
    return [clip for clip in clips() if clip.path.exists()]


def usable() -> list[Clip]:
    """What has been spoken, and what the engines that are here can speak; says which are not here."""
    engines = sorted({voice.engine for voice in VOICES})
    here = {engine for engine in engines if available(engine)}
    for engine in sorted(set(engines) - here):
        print(
            f"{engine} isn't here: only what it has spoken before is heard. "
            "tests/bench/MEASURED.md says how to get it."
        )
    return [clip for clip in clips() if clip.voice.engine in here or clip.path.exists()]


def _of(voice: Voice) -> Iterator[Clip]:
    seed = zlib.crc32(voice.key.encode())
    rng = random.Random(seed)
    for line in lines(voice.part, voice.notes, voice.chatter, seed):
        yield Clip(voice, line, rng.choice((0.9, 1.0, 1.0, 1.1, 1.2)))


def make(clip: Clip) -> None:
    """Speak one line and keep it, without the silence round it, at one loudness."""
    samples = trimmed(speak(clip.voice.engine, clip.voice.name, clip.line.text, clip.speed))
    save(clip.path, loud(samples))


def trimmed(samples: Samples) -> Samples:
    """From the first sound to the last: its end is the true end of speech."""
    peak = float(np.max(np.abs(samples))) or 1.0
    window = np.convolve(np.abs(samples), np.ones(160, np.float32) / 160, mode="same")
    heard = np.flatnonzero(window > _EDGE * peak)
    return samples[heard[0] : heard[-1] + 1] if heard.size else samples


def loud(samples: Samples, level_db: float = -23.0) -> Samples:
    """The samples at a root mean square of so many decibels below full scale, never clipped."""
    rms = float(np.sqrt(np.mean(samples**2))) or 1.0
    gain = min(10 ** (level_db / 20) / rms, 0.99 / max(float(np.max(np.abs(samples))), 1e-9))
    return np.asarray(samples * gain, dtype=np.float32)


def complete(wanted: Sequence[Clip]) -> None:
    """Speak what hasn't been spoken yet."""
    missing = [clip for clip in wanted if not clip.path.exists()]
    for count, clip in enumerate(missing, 1):
        make(clip)
        if count % 100 == 0:
            print(f"{count} of {len(missing)} lines spoken", file=sys.stderr, flush=True)
