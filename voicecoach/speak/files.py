"""Writes a WAV whole or not at all. Only its owner can read it."""

import os
import tempfile
from pathlib import Path

import soundfile

from voicecoach.errors import Problem, shown, what_to_do, why
from voicecoach.speak.values import Sound, StereoSound


class FileProblem(Problem):
    """A sound file can't be written."""


def write_wav(sound: Sound | StereoSound, path: Path) -> None:
    """Write a 16-bit WAV under a temporary name, then give it its own."""
    if path.exists() and not path.is_file():
        raise FileProblem(f"{shown(path)} can't be written: it isn't a file. Choose another name.")
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
    except OSError as error:
        raise FileProblem(
            f"The sound can't be written to {shown(path)}: {why(error)}. {what_to_do(error)}"
        ) from error
    except soundfile.SoundFileError as error:
        raise FileProblem(
            f"The sound can't be written to {shown(path)}: {error}. Choose another file."
        ) from error
