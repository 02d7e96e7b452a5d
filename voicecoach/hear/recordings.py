"""Recordings in, blocks of mono sound at 16 kHz out, read as they are needed."""

from __future__ import annotations

import os
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import numpy as np

from voicecoach.errors import DataProblem
from voicecoach.hear.blocks import RATE_HZ, Block, Samples, even, silence
from voicecoach.hear.resampling import ToMono16k
from voicecoach.sound.libraries import library

soundfile = library("soundfile")

_FRAMES = 16_384
"""Frames read at a time, so that a header which promises hours costs no memory."""
_RATES_HZ = range(2_000, 768_001)
"""Rates that a recording of speech can have; a header outside them is damaged."""
_CHANNELS = 64
"""More channels than any recorder writes: a header with more is damaged."""
_ERRORS = 2
"""The descriptor of standard error."""
_ONE_AT_A_TIME = threading.Lock()


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


def _opened(path: str | Path) -> Any:
    """Open it, or say in one sentence why it can't be read."""
    if not Path(path).is_file():
        raise DataProblem(f"The recording {path} isn't there. Check its name.")
    try:
        with _hushed(_may_be_mp3(path)):
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


def _resampled(file: Any, path: str | Path) -> Iterator[Block]:
    stream, given = ToMono16k(file.samplerate), 0
    for piece in _pieces(file, path):
        ready = stream.process(piece)
        yield Block(ready, given / RATE_HZ)
        given += ready.size
    yield Block(stream.rest(), given / RATE_HZ)


def _pieces(file: Any, path: str | Path) -> Iterator[Samples]:
    while True:
        try:
            with _hushed(file.format == "MP3"):
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
    if text.startswith("File does not exist"):
        return "it is damaged"  # as the library says of an MP3 without sound; the file is there
    return text[:1].lower() + text[1:] if text else "no reason was given"


def _may_be_mp3(path: str | Path) -> bool:
    """True where a file begins in a way that makes the sound library take it for MP3."""
    try:
        with Path(path).open("rb") as file:
            begins = file.read(3)
    except OSError:
        return False  # opening it as sound fails likewise, and says why
    return begins == b"ID3" or (begins[:1] == b"\xff" and begins[1:2] >= b"\xe0")


@contextmanager
def _hushed(wanted: bool) -> Iterator[None]:
    """While this lasts, what the MP3 decoder prints on standard error is thrown away.

    It prints from C, even for sound recordings, and the sound library has no way to keep it quiet. So
    standard error is turned away, and only for the few milliseconds of its calls.
    """
    if not wanted or sys.__stderr__ is None:  # closed from the start: the recording may have its number
        yield
        return
    with _ONE_AT_A_TIME:
        sys.__stderr__.flush()
        kept, nowhere = os.dup(_ERRORS), os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, _ERRORS)
        try:
            yield
        finally:
            os.dup2(kept, _ERRORS)
            os.close(nowhere)
            os.close(kept)
