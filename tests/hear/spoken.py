"""The words that a spoken file is named by, and streams made from it."""

from collections.abc import Iterator
from pathlib import Path

import numpy as np

from voicecoach.hear.blocks import RATE_HZ, Block, Samples, silence
from voicecoach.hear.recordings import load


def words_of(path: Path) -> str:
    """The words in the file's name."""
    return path.name.split(".")[0].replace("_", " ").replace("oclock", "o'clock")


def padded(path: Path, before_s: float = 0.6, after_s: float = 1.0) -> Samples:
    """The file's speech with silence round it."""
    return np.concatenate([silence(before_s), load(path), silence(after_s)])


def in_noise(path: Path, above_noise_db: float) -> Samples:
    """A note with a steady hiss so far below it."""
    sound, speech = padded(path), load(path)
    level = float(np.sqrt(np.mean(speech**2))) * 10 ** (-above_noise_db / 20)
    hiss = np.random.default_rng(3).normal(0, level, sound.size)
    return np.asarray(sound + hiss, np.float32)


def faint(path: Path, level_db: float, above_noise_db: float) -> Samples:
    """A note in such a hiss, so far below full scale, in the steps of sixteen bits."""
    speech_db = 20 * np.log10(np.sqrt(np.mean(load(path) ** 2)))
    quiet = in_noise(path, above_noise_db) * 10 ** ((level_db - speech_db) / 20)
    return np.asarray(np.round(quiet * 32_767) / 32_767, np.float32)


def stream(samples: Samples, sizes: list[int]) -> Iterator[Block]:
    """The samples in blocks of these lengths, over and over."""
    start, turn = 0, 0
    while start < samples.size:
        size = sizes[turn % len(sizes)]
        yield Block(samples[start : start + size], start / RATE_HZ)
        start, turn = start + size, turn + 1
