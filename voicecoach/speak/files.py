"""Writes a WAV whole or not at all, readable by its owner alone."""

import os
import tempfile
from pathlib import Path

import soundfile

from voicecoach.errors import Problem
from voicecoach.speak.values import Sound, StereoSound


class FileProblem(Problem):
    """A sound file can't be written."""


def write_wav(sound: Sound | StereoSound, path: Path) -> None:
    """Write a 16-bit WAV under a passing name, then give it its own."""
    if path.exists() and not path.is_file():
        raise FileProblem(f"{path} can't be written: it isn't a file. Choose another name.")
    try:
        handle, name = tempfile.mkstemp(prefix=f".{path.name[:40]}-", suffix=".part", dir=path.parent)
        try:
            with os.fdopen(handle, "wb") as file:
                soundfile.write(file, sound.samples, sound.rate_hz, format="WAV", subtype="PCM_16")
                file.flush()
                os.fsync(file.fileno())
            Path(name).replace(path)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise
    except (OSError, soundfile.SoundFileError) as error:
        raise FileProblem(
            f"The sound can't be written to {path}: {_reason(error)}. Choose another file or make room."
        ) from error


def _reason(error: Exception) -> str:
    """Why it can't be written, without the passing name that the system puts beside it."""
    if isinstance(error, FileNotFoundError | NotADirectoryError):
        return "its folder is not there"
    return str(getattr(error, "strerror", None) or error)
