"""A spectral gate: steady noise is turned down, band by band, as the sound streams through."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from voicecoach.hear.blocks import Samples, silence

_WINDOW = 512
_HOP = 128
_SHAPE = np.sqrt(np.hanning(_WINDOW + 1)[:-1]).astype(np.float32)
"""Root of a Hann window, before and after: the overlapping pieces add up to the sound again."""
_SCALE = np.float32(_HOP / np.sum(_SHAPE**2))
_LEARNS = 36
"""Frames (0.3 s) from the start that are taken for noise: the pre-roll comes before any word."""
_SMOOTHED = 5
"""Bands over whose mean a harder gate takes its noise: one band's is uncertain after 0.3 s."""
_FOLLOWS = 0.6
"""How far each frame's gain follows the one before; without it the rest of the noise twitters."""

_Power = npt.NDArray[np.float32]


class Gate:
    """Takes samples and gives them back about a window later, with steady noise turned down.

    Args:
        harder: Take more away and leave less. In strong noise other words are heard rightly then; in weak
            noise some are lost.
    """

    def __init__(self, *, harder: bool = False) -> None:
        self._smoothed = _SMOOTHED if harder else 1
        self._over, self._floor = (2.5, 0.05) if harder else (1.5, 0.2)
        self._kept = silence(0)
        self._tail = np.zeros(_WINDOW - _HOP, np.float32)
        self._noise: _Power | None = None
        self._learnt = 0
        self._gain: _Power = np.ones(_WINDOW // 2 + 1, np.float32)

    def take(self, samples: Samples) -> Samples:
        """Take the next samples and give what is ready."""
        sound = np.concatenate([self._kept, samples])
        count = max(0, (sound.size - _WINDOW) // _HOP + 1)
        out = np.zeros(count * _HOP + _WINDOW - _HOP, np.float32)
        out[: self._tail.size] = self._tail
        for index in range(count):
            start = index * _HOP
            out[start : start + _WINDOW] += self._frame(sound[start : start + _WINDOW])
        self._kept = sound[count * _HOP :]
        self._tail = out[count * _HOP :]
        return out[: count * _HOP]

    def rest(self) -> Samples:
        """Give what was kept back."""
        return self.take(silence(_WINDOW / 16_000))

    def _frame(self, frame: Samples) -> Samples:
        spectrum = np.fft.rfft(frame * _SHAPE)
        power = np.square(np.abs(spectrum)).astype(np.float32)
        self._learn(power)
        if self._noise is None:
            return np.asarray(frame * _SHAPE * _SHAPE * _SCALE, np.float32)
        wanted = np.maximum(1 - self._over * self._noise / np.maximum(power, 1e-12), self._floor**2)
        now = np.sqrt(wanted).astype(np.float32)
        self._gain = np.float32(_FOLLOWS) * self._gain + np.float32(1 - _FOLLOWS) * now
        return np.asarray(np.fft.irfft(spectrum * self._gain, _WINDOW) * _SHAPE * _SCALE, np.float32)

    def _learn(self, power: _Power) -> None:
        """The mean of the first frames; after them it follows slowly downwards and more slowly upwards."""
        if self._smoothed > 1:
            share = np.full(self._smoothed, 1 / self._smoothed, np.float32)
            power = np.convolve(power, share, "same").astype(np.float32)
        if self._noise is None:
            self._noise = power
        elif self._learnt < _LEARNS:
            self._noise = self._noise + (power - self._noise) / np.float32(self._learnt + 1)
        else:
            rate = np.where(power < self._noise, 0.02, 0.001)
            self._noise = (self._noise + rate * (power - self._noise)).astype(np.float32)
        self._learnt += 1
