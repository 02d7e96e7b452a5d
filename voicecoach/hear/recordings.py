"""Recordings in, blocks of mono sound at 16 kHz out, read as they are needed."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import numpy as np
import soundfile

from voicecoach.errors import DataProblem
from voicecoach.hear.blocks import RATE_HZ, Block, Samples, even, silence
from voicecoach.hear.resampling import ToMono16k

_FRAMES = 16_384
"""Frames read at a time: a header that promises hours costs no memory."""
_RATES_HZ = range(2_000, 768_001)
"""Rates that a recording of speech can have; a header outside them is damaged."""
_CHANNELS = 64
"""More channels than any recorder writes: a header with more is damaged."""


def blocks(path: str | Path) -> Iterator[Block]:
    """Read a recording of any rate and channel count as blocks of 512 samples.

    Raises:
        DataProblem: the file is missing, is no recording, or is damaged.
    """
    with _opened(path) as file:
        yield from even(_resampled(file, path))


def load(path: str | Path) -> Samples:
    """Read a whole recording at once, mono at 16 kHz."""
    with _opened(path) as file:
        pieces = [block.samples for block in _resampled(file, path)]
    return np.concatenate(pieces) if pieces else silence(0)


def _opened(path: str | Path) -> soundfile.SoundFile:
    """Open it, or say in one sentence why it can't be read."""
    if not Path(path).is_file():
        raise DataProblem(f"The recording {path} isn't there. Check its name.")
    try:
        file = soundfile.SoundFile(str(path))
    except (soundfile.SoundFileError, OSError, RuntimeError, TypeError) as problem:
        raise DataProblem(
            f"The recording {path} can't be read: {_reason(problem)}. Save it again as WAV or FLAC."
        ) from problem
    if file.samplerate not in _RATES_HZ or not 1 <= file.channels <= _CHANNELS:
        file.close()
        raise DataProblem(
            f"The recording {path} says that it has {file.channels} channels at {file.samplerate} Hz: "
            "it is damaged. Save it again as WAV or FLAC."
        )
    return file


def _resampled(file: soundfile.SoundFile, path: str | Path) -> Iterator[Block]:
    stream, given = ToMono16k(file.samplerate), 0
    for piece in _pieces(file, path):
        ready = stream.take(piece)
        yield Block(ready, given / RATE_HZ)
        given += ready.size
    yield Block(stream.rest(), given / RATE_HZ)


def _pieces(file: soundfile.SoundFile, path: str | Path) -> Iterator[Samples]:
    while True:
        try:
            piece = file.read(_FRAMES, dtype="float32")
        except (soundfile.SoundFileError, OSError, RuntimeError) as problem:
            raise DataProblem(
                f"The recording {path} breaks off: {_reason(problem)}. What came before it was used."
            ) from problem
        if len(piece) == 0:
            return
        yield piece


def _reason(problem: Exception) -> str:
    """The library's own reason, without the address of an object or a full stop."""
    text = str(getattr(problem, "error_string", problem)).strip().rstrip(".")
    return text[:1].lower() + text[1:] if text else "no reason was given"
