"""The sounds of the afternoon as files that can be played: voices and noise."""

from __future__ import annotations

import hashlib
from pathlib import Path

import numpy as np
import soundfile

from tests.afternoon.script import Alone, Line
from tests.bench.hearing import corpus, noise
from tests.bench.hearing.engines import speak
from tests.bench.soak_sounds import SCENES, SPOKEN
from voicecoach.hear.blocks import RATE_HZ, Samples, silence

EDGE_S = 0.3
TALKERS = 12


class Sounds:
    """Makes each sound once and keeps it in a folder."""

    def __init__(self, folder: Path, seed: int, talk: list[str]) -> None:
        self._folder, self._seed = folder, seed
        self._talk = [self._spoken("slt", say) for say in talk[:TALKERS]]

    def line(self, line: Line) -> Path:
        """Somebody's words, without the wind they are said in."""
        if line.wav is not None:
            return line.wav
        name = hashlib.sha256(f"{line.voice}|{line.say}".encode()).hexdigest()[:16]
        path = self._folder / f"{name}.wav"
        if not path.exists():
            samples = np.concatenate([silence(EDGE_S), self._spoken(line.voice, line.say), silence(EDGE_S)])
            soundfile.write(path, samples, RATE_HZ, subtype="PCM_16")
        return path

    def alone(self, alone: Alone, number: int) -> Path:
        """Noise and nothing else, at the level it has in the soak."""
        scene = next(each for each in SCENES if each.name == alone.name)
        size, dice = round(alone.seconds * RATE_HZ), np.random.default_rng([self._seed, number])
        return self._noise(f"alone-{number}", scene.noise(size, dice, self._talk), scene.decibels)

    def hiss(self) -> Path:
        """A minute of what a microphone gives when nothing is heard: it is never quite silent."""
        dice = np.random.default_rng([self._seed, 0])
        return self._noise("hiss", noise.pink(60 * RATE_HZ, dice), -50)

    def wind(self) -> Path:
        """A minute of light wind, to be spoken into."""
        dice = np.random.default_rng([self._seed, 0])
        return self._noise("light-wind", noise.outdoors(60 * RATE_HZ, dice), -20)

    @staticmethod
    def _spoken(voice: str, say: str) -> Samples:
        return corpus.loud(corpus.trimmed(speak("flite", voice, say, 1.0)))

    def _noise(self, name: str, sound: Samples, decibels: float) -> Path:
        path = self._folder / f"{name}.wav"
        level = SPOKEN * 10 ** (decibels / 20) / float(np.sqrt(np.mean(np.square(sound))))
        soundfile.write(path, np.clip(sound * level, -1, 1), RATE_HZ, subtype="PCM_16")
        return path
