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


def stream(samples: Samples, sizes: list[int]) -> Iterator[Block]:
    """The samples in blocks of these lengths, over and over."""
    start, turn = 0, 0
    while start < samples.size:
        size = sizes[turn % len(sizes)]
        yield Block(samples[start : start + size], start / RATE_HZ)
        start, turn = start + size, turn + 1
