"""Writes a WAV whole or not at all. Only its owner can read it."""

from pathlib import Path

from voicecoach.errors import Problem, shown
from voicecoach.sound.libraries import library
from voicecoach.speak.values import Sound, StereoSound
from voicecoach.whole_file import replacing

soundfile = library("soundfile")


def write_wav(sound: Sound | StereoSound, path: Path) -> None:
    """Write a 16-bit WAV.

    Raises:
        Problem: It can't be written. A file that had the name before is as it was.
    """
    try:
        with replacing(path) as file:
            soundfile.write(file, sound.samples, sound.rate_hz, format="WAV", subtype="PCM_16")
    except soundfile.SoundFileError as error:
        raise Problem(f"{shown(path)} can't be written: {error}. Choose another file.") from error
