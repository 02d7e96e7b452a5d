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


class NoiseGate:
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

    def process(self, samples: Samples) -> Samples:
        """Process the next samples and give what is ready."""
        sound = np.concatenate([self._kept, samples])
        count = max(0, (sound.size - _WINDOW) // _HOP + 1)
        out = np.zeros(count * _HOP + _WINDOW - _HOP, np.float32)
        out[: self._tail.size] = self._tail
        if count:
            for index, frame in enumerate(self._frames(sound, count)):
                out[index * _HOP : index * _HOP + _WINDOW] += frame
        self._kept = sound[count * _HOP :]
        self._tail = out[count * _HOP :]
        return out[: count * _HOP]

    def rest(self) -> Samples:
        """Give what was kept back."""
        return self.process(silence(_WINDOW / 16_000))

    def _frames(self, sound: Samples, count: int) -> Samples:
        """The frames that are ready, all transformed at once: that takes half the time of one by one."""
        frames = np.lib.stride_tricks.sliding_window_view(sound, _WINDOW)[::_HOP][:count]
        spectra = np.fft.rfft(frames * _SHAPE)
        powers = np.square(np.abs(spectra)).astype(np.float32)
        gains = np.stack([self._gain_for(power) for power in powers])
        return np.asarray(np.fft.irfft(spectra * gains, _WINDOW) * _SHAPE * _SCALE, np.float32)

    def _gain_for(self, power: _Power) -> _Power:
        noise = self._learn(power)
        wanted = np.maximum(1 - self._over * noise / np.maximum(power, 1e-12), self._floor**2)
        now = np.sqrt(wanted).astype(np.float32)
        self._gain = np.float32(_FOLLOWS) * self._gain + np.float32(1 - _FOLLOWS) * now
        return self._gain

    def _learn(self, power: _Power) -> _Power:
        """The noise: the mean of the first frames; then it follows slowly down and more slowly up."""
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
        return self._noise
