"""Mutated recordings through the reader of recordings: sound comes out, or one sentence that says why not."""

from __future__ import annotations

import io
import os
import random
import time
from collections import Counter
from pathlib import Path

import numpy as np
import soundfile

from tests.bench import fuzz_mutate
from tests.bench.fuzz_mutate import written_anew
from tests.bench.fuzz_watch import only
from voicecoach.errors import DataProblem
from voicecoach.hear.blocks import BLOCK
from voicecoach.hear.recordings import blocks

RATES_HZ = (8_000, 11_025, 16_000, 22_050, 44_100, 48_000, 96_000, 192_000)
CODECS = (
    (
        "WAV",
        ("PCM_16", "PCM_U8", "PCM_24", "PCM_32", "FLOAT", "DOUBLE", "ULAW", "ALAW", "IMA_ADPCM", "MS_ADPCM"),
    ),
    ("WAVEX", ("PCM_16", "FLOAT")),
    ("RF64", ("PCM_16",)),
    ("W64", ("PCM_16",)),
    ("AIFF", ("PCM_16", "FLOAT")),
    ("AU", ("PCM_16", "ULAW")),
    ("CAF", ("PCM_16",)),
    ("FLAC", ("PCM_16", "PCM_24")),
    ("OGG", ("VORBIS",)),
    ("MP3", ("MPEG_LAYER_III",)),
)
MP3_RATES_HZ = tuple(rate_hz for rate_hz in RATES_HZ if rate_hz <= 48_000)
SLOWEST_S = 5.0
"""Processor time that no recording of a second may take, whatever its header promises."""
LONGEST_S = 3_600.0
"""Sound that no such recording may give."""


def run(count: int, seed: int, folder: Path) -> Counter[str]:
    """So many recordings, one after another under one name; raises where one isn't handled."""
    dice, came = random.Random(seed), Counter[str]()
    for number in range(count):
        form, codec = _codec(dice)
        path = folder / "fuzzed.wav"
        sound = _recording(form, codec, dice)
        written_anew(path, sound if dice.random() < 0.1 else fuzz_mutate.data(sound, dice))
        with only(folder, Path(os.devnull)):
            came[_heard(path, f"seed {seed}, recording {number} ({form} {codec}), kept as {path}")] += 1
    return came


def _codec(dice: random.Random) -> tuple[str, str]:
    form, codecs = dice.choices(CODECS, (8, 2, 1, 1, 1, 1, 1, 2, 1, 1))[0]
    return form, dice.choice(codecs)


def _recording(form: str, codec: str, dice: random.Random) -> bytes:
    """A recording of up to half a second; floats may be no numbers at all."""
    rate_hz = dice.choice(RATES_HZ if form != "MP3" else MP3_RATES_HZ)
    channels = dice.choice((1, 2) if "ADPCM" in codec or form == "MP3" else (1, 1, 2, 3, 8))
    numbers = np.random.default_rng(dice.randrange(1 << 30))
    samples = numbers.uniform(-0.5, 0.5, (dice.randint(0, rate_hz // 2), channels)).astype(np.float32)
    if codec in ("FLOAT", "DOUBLE") and samples.size:
        wild = numbers.integers(0, samples.size, 20)
        samples.flat[wild] = numbers.choice([np.nan, np.inf, -np.inf, 1e38, -1e38], 20)
    made = io.BytesIO()
    soundfile.write(made, samples, rate_hz, format=form, subtype=codec)
    return made.getvalue()


def _heard(path: Path, where: str) -> str:
    began, seconds = time.process_time(), 0.0
    try:
        for block in blocks(path):
            assert block.samples.size == BLOCK, where
            assert np.all(np.abs(block.samples) <= 1), where  # false for what is no number
            seconds += BLOCK / 16_000
            assert seconds < LONGEST_S, where
        came = "heard"
    except DataProblem:
        came = "refused" if seconds == 0 else "broken off"
    except Exception as problem:
        raise AssertionError(f"{where}: {problem!r}") from problem
    assert time.process_time() - began < SLOWEST_S, where
    return came
