"""Stories of the scenarios spoken by flite's voices, which are freely licensed.

A story is spoken whenever the tests tell it by voice. Only the recordings that stories name are kept
in the repository; after such a story changes, `python -m tests.games.speaking` makes them again.
"""

import subprocess
import tempfile
from collections.abc import Iterable
from pathlib import Path

import numpy as np
import soundfile
import soxr

from voicecoach.hear.blocks import RATE_HZ, Samples, silence
from voicecoach.places import scenarios
from voicecoach.story import Story, StoryLine, read_story

QUIET_S = 0.6
"""Silence before and after: a recogniser loses words at a bare edge."""
LOUDEST = 0.5
"""Every recording's highest sample, as a share of full scale, so that all are about as loud."""


def speak(voice: str, words: str, path: Path) -> None:
    """Render `words` with `voice`, such as `flite rms`, into a WAV file."""
    engine, name = voice.split()
    subprocess.run([engine, "-voice", name, "-t", words, "-o", str(path)], check=True)


def spoken(voice: str, words: str, quiet_s: float = QUIET_S) -> Samples:
    """The words in that voice: 16 kHz, as loud as all others, silence around."""
    with tempfile.TemporaryDirectory() as folder:
        raw = Path(folder) / "raw.wav"
        speak(voice, words, raw)
        samples, rate_hz = soundfile.read(raw, dtype="float32")
    even = LOUDEST * samples / np.max(np.abs(samples))
    return np.concatenate([silence(quiet_s), soxr.resample(even, rate_hz, RATE_HZ), silence(quiet_s)])


def keep(samples: Samples, path: Path) -> None:
    """Write them as 16 bit WAV."""
    soundfile.write(path, samples, RATE_HZ, subtype="PCM_16")


def recordings(
    story: Story, steps: Iterable[StoryLine], folder: Path, quiet_s: float = QUIET_S
) -> list[Path]:
    """These steps of the story, each spoken into a file of its own in `folder`."""
    paths = []
    for number, step in enumerate(steps, start=1):
        paths.append(folder / f"{number:02}.wav")
        keep(spoken(step.voice or story.voice, step.say, quiet_s), paths[-1])
    return paths


def record(path: Path) -> None:
    """Make every recording that the story in `path` names, beside it."""
    story = read_story(path)
    for step in story.steps:
        if step.audio:
            keep(spoken(step.voice or story.voice, step.say), path.parent / step.audio)


if __name__ == "__main__":
    for each in sorted(scenarios().glob("*/story.yaml")):
        record(each)
