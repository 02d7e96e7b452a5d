"""How much of the voice is left in outdoor noise: the short-time objective intelligibility index.

Taal, Hendriks, Heusdens and Jensen, "An Algorithm for Intelligibility Prediction of Time-Frequency
Weighted Noisy Speech" (2011), as the library pystoi computes it: 1 for clean speech, 0 for none.
"""

from __future__ import annotations

import importlib
from collections.abc import Sequence

import numpy as np

from tests.bench.hearing.noise import outdoors
from voicecoach.hear.blocks import RATE_HZ
from voicecoach.speak.samples import resample
from voicecoach.speak.voice import Voice


def index(voice: Voice, texts: Sequence[str], decibels: float, seed: int = 6) -> float:
    """The mean index of the sentences, so many decibels above the noise."""
    stoi = importlib.import_module("pystoi").stoi
    chance = np.random.default_rng(seed)
    found = []
    for text in texts:
        sound = voice.render(text)
        speech = resample(sound.samples, sound.rate_hz, RATE_HZ)
        noise = outdoors(len(speech), chance)
        gain = np.sqrt(np.mean(speech**2) / np.mean(noise**2)) * 10 ** (-decibels / 20)
        found.append(float(stoi(speech, speech + gain * noise, RATE_HZ)))
    return float(np.mean(found))
