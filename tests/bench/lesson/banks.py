"""What the lesson is given from: clean speech and noise, made beforehand and kept as sixteen-bit samples."""

from __future__ import annotations

import time
from collections.abc import Sequence
from pathlib import Path

import numpy as np
import torch
from torch.nn import functional

from tests.bench.hearing.weather import weather
from tests.bench.lesson.network import Tensor
from voicecoach.hear.blocks import RATE_HZ, Samples

ROW_S = 5.5
"""A row of a batch, seconds: room for one note or two."""
_SPEEDS = (0.86, 0.9, 0.94, 0.97, 1.0, 1.0, 1.0, 1.04, 1.08, 1.14)
"""How much faster a voice speaks, its pitch with it: older and younger ones."""


def keep(path: Path, sounds: Sequence[Samples]) -> None:
    """Write sounds to one file, whole or not at all."""
    half = path.with_suffix(".part.npz")
    whole = np.concatenate([np.round(np.clip(one, -1, 1) * 32_767).astype(np.int16) for one in sounds])
    np.savez(half, samples=whole, sizes=np.array([one.size for one in sounds]))
    half.replace(path)


def make_noise(path: Path, count: int, seed: int, talk: list[Samples]) -> None:
    """So many rows of noise, of the fitted families alone."""
    dice = np.random.default_rng(seed)
    size = round(ROW_S * RATE_HZ)
    keep(path, [0.12 * weather("tuning", size, dice, talk) for _ in range(count)])


class Bank:
    """Sounds on a device; more may come while it is used."""

    def __init__(self, folder: Path, device: str) -> None:
        self._folder, self._device = folder, device
        self._read: set[Path] = set()
        self._samples = torch.zeros(0, dtype=torch.int16, device=device)
        self._sizes = torch.zeros(0, dtype=torch.int64, device=device)

    def reread(self) -> None:
        """Take in the files that are new."""
        for path in sorted(set(self._folder.glob("*.npz")) - self._read):
            if path.name.endswith(".part.npz"):
                continue
            file = np.load(path)
            self._read.add(path)
            self._samples = torch.cat([self._samples, torch.tensor(file["samples"], device=self._device)])
            self._sizes = torch.cat([self._sizes, torch.tensor(file["sizes"], device=self._device)])
        self._starts = functional.pad(self._sizes.cumsum(0), (1, 0))[:-1]

    def await_seconds(self, seconds: float) -> None:
        """Take in what comes until there is so much."""
        while self.seconds < seconds:
            time.sleep(1)
            self.reread()

    @property
    def seconds(self) -> float:
        """How much there is."""
        return len(self._samples) / RATE_HZ

    def noise(self, rows: int) -> Tensor:
        """Rows of noise, each from a random place on, round and round."""
        size = round(ROW_S * RATE_HZ)
        which = torch.randint(0, len(self._sizes), (rows, 1), device=self._device)
        shift = torch.randint(0, size, (rows, 1), device=self._device)
        places = (torch.arange(size, device=self._device)[None] + shift) % self._sizes[which]
        return self._samples[self._starts[which] + places].float() / 32_768

    def speech(self, rows: int) -> Tensor:
        """Clean rows at one speed: an utterance after a short silence, in some a second, in a few none."""
        size = round(ROW_S * RATE_HZ)
        speed = _SPEEDS[int(torch.randint(0, len(_SPEEDS), (1,)))]
        spoken = round(size * speed)
        places = torch.arange(spoken, device=self._device)[None]
        sound = torch.zeros(rows, spoken, device=self._device)
        start = (torch.rand(rows, 1, device=self._device) * 0.6 + 0.3) * RATE_HZ
        for share in (0.96, 0.35):
            which = torch.randint(0, len(self._sizes), (rows, 1), device=self._device)
            within = places - start.long()
            heard = (within >= 0) & (within < self._sizes[which])
            heard = heard & (torch.rand(rows, 1, device=self._device) < share)
            where = (self._starts[which] + within.clamp(min=0)).clamp(max=len(self._samples) - 1)
            sound = sound + torch.where(heard, self._samples[where].float() / 32_768, 0.0)
            start = (
                start + self._sizes[which] + (torch.rand(rows, 1, device=self._device) * 0.5 + 0.3) * RATE_HZ
            )
        return _resized(sound, size)


def _resized(sound: Tensor, size: int) -> Tensor:
    """The same sound in so many samples: faster or slower."""
    count = sound.shape[1]
    if count == size:
        return sound
    spectrum = torch.fft.rfft(sound)
    wanted = size // 2 + 1
    missing = wanted - spectrum.shape[1]
    spectrum = functional.pad(spectrum, (0, missing)) if missing > 0 else spectrum[:, :wanted]
    return torch.fft.irfft(spectrum, size) * size / count
