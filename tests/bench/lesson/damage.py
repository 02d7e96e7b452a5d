"""What is done to clean speech before the student hears it: noise, rooms, poor links, and our own gate.

Batches of sound (rows, samples) at 16 kHz on a device; every row is dealt with by figures of its own. The
noise itself comes from the bench's fitted families (`banks.py`), never from the scored ones.
"""

from __future__ import annotations

import math

import torch
from torch.nn import functional

from tests.bench.lesson.network import Tensor

RATE_HZ = 16_000
_WINDOW, _HOP = 512, 128
_LEARNS, _SMOOTHED = 36, 5


def between(rows: int, low: float, high: float, device: str) -> Tensor:
    """A figure for each row, evenly drawn: (rows, 1)."""
    return torch.rand(rows, 1, device=device) * (high - low) + low


def some(rows: int, share: float, device: str) -> Tensor:
    """True for about this share of the rows: (rows, 1)."""
    return torch.rand(rows, 1, device=device) < share


def level(sound: Tensor) -> Tensor:
    """About the active level of speech: the root mean square of what is above a twentieth of the peak."""
    loud = (sound.abs() > 0.05 * sound.abs().amax(1, keepdim=True)).float()
    power = (sound**2 * loud).sum(1, keepdim=True) / loud.sum(1, keepdim=True).clamp(min=1)
    return torch.where(power > 1e-8, power, torch.full_like(power, 0.0025)).sqrt()


def noisy(sound: Tensor, noise: Tensor) -> Tensor:
    """Noise added, mostly up to 14 dB under the speech, some far below; one row in five has none."""
    rows, device = len(sound), sound.device
    ratio_db = torch.where(
        some(rows, 0.5, device), between(rows, 0, 14, device), between(rows, -2, 30, device)
    )
    loudness = (
        level(sound) * 10 ** (-ratio_db / 20) / noise.pow(2).mean(1, keepdim=True).clamp(min=1e-12).sqrt()
    )
    return sound + torch.where(some(rows, 0.2, device), 0.0, loudness) * noise


def roomy(sound: Tensor) -> Tensor:
    """A room's echoes, from a porch to a hall."""
    rows, size, device = len(sound), sound.shape[1], sound.device
    length = 14_400
    times = torch.arange(length, device=device)[None] / RATE_HZ
    decay_s = 10 ** between(rows, -1.1, -0.05, device)
    echo = torch.randn(rows, length, device=device) * torch.exp(-6.9 * times / decay_s)
    echo = echo * (times > between(rows, 0.001, 0.006, device))
    echo = echo / echo.pow(2).sum(1, keepdim=True).sqrt() * 10 ** (between(rows, -18, -2, device) / 20)
    echo[:, 0] = 1
    full = size + length
    return torch.fft.irfft(torch.fft.rfft(sound, full) * torch.fft.rfft(echo, full), full)[:, :size]


def through_a_microphone(sound: Tensor, narrow: Tensor) -> Tensor:
    """An uneven microphone; rows of `narrow` keep only what telephone-grade sound has."""
    rows, size, device = len(sound), sound.shape[1], sound.device
    hertz = torch.fft.rfftfreq(size, 1 / RATE_HZ).to(device)[None]
    curve_db = torch.randn(rows, 10, device=device) * between(rows, 0, 4, device)
    place = (torch.log2(hertz.clamp(min=60) / 60) / 7.1 * 9).clamp(0, 8.999).expand(rows, -1)
    left = place.floor().long()
    share = place - left
    gain_db = curve_db.gather(1, left) * (1 - share) + curve_db.gather(1, left + 1) * share
    gain = 10 ** (gain_db / 20) / (1 + (between(rows, 5, 150, device) / hertz.clamp(min=1)) ** 4)
    cut = 1 / (1 + (hertz / between(rows, 3_300, 3_950, device)) ** 40)
    cut = torch.where(narrow, cut / (1 + (between(rows, 50, 300, device) / hertz.clamp(min=1)) ** 8), 1.0)
    return torch.fft.irfft(torch.fft.rfft(sound) * gain * cut, size)


def recorded(sound: Tensor) -> Tensor:
    """At another level, sometimes cut flat, and in steps of sixteen bits."""
    rows, device = len(sound), sound.device
    peak = 10 ** (between(rows, -30, 0, device) / 20)
    sound = sound / sound.abs().amax(1, keepdim=True).clamp(min=1e-4)
    driven = between(rows, 2, 6, device)
    flat = (sound * driven).clamp(-1, 1)
    sound = torch.where(some(rows, 0.05, device), flat, sound) * peak
    return torch.round(sound * 32_767) / 32_768


def gated(sound: Tensor, harder: Tensor) -> Tensor:
    """What voicecoach.hear.gate makes of it; `harder` (rows) says where the harder gate is meant."""
    size = sound.shape[1]
    shape = torch.hann_window(_WINDOW, device=sound.device).sqrt()
    spectrum = torch.fft.rfft(sound.unfold(1, _WINDOW, _HOP) * shape)
    power = spectrum.abs().square()
    smooth = functional.avg_pool1d(power, _SMOOTHED, 1, _SMOOTHED // 2)
    learnt = torch.where(harder[:, None, None], smooth, power)
    gains = _gains(power, learnt, harder[:, None])
    pieces = torch.fft.irfft(spectrum * gains, _WINDOW) * shape * (_HOP / float((shape**2).sum()))
    return functional.fold(pieces.transpose(1, 2), (1, size), (1, _WINDOW), stride=(1, _HOP))[:, 0, 0]


def _gains(power: Tensor, learnt: Tensor, harder: Tensor) -> Tensor:
    """Frame after frame: the noise as it is known by then, and how much of each band is let through."""
    over = torch.where(harder, 2.5, 1.5)
    least = torch.where(harder, 0.05**2, 0.2**2)
    noise, gain, found = learnt[:, 0], torch.ones_like(power[:, 0]), []
    for place in range(power.shape[1]):
        now = learnt[:, place]
        if 0 < place < _LEARNS:
            noise = noise + (now - noise) / (place + 1)
        elif place >= _LEARNS:
            noise = noise + torch.where(now < noise, 0.02, 0.001) * (now - noise)
        wanted = torch.maximum(1 - over * noise / power[:, place].clamp(min=1e-12), least)
        gain = 0.6 * gain + 0.4 * wanted.sqrt()
        found.append(gain)
    return torch.stack(found, 1)


def damaged(sound: Tensor, noise: Tensor) -> Tensor:
    """All of it, in the order in which it happens between a mouth and the recogniser."""
    rows, device = len(sound), sound.device
    sound = torch.where(some(rows, 0.25, device), roomy(sound), sound)
    sound = noisy(sound, noise)
    narrow = some(rows, 0.1, device)
    heard = torch.where(some(rows, 0.35, device) | narrow, through_a_microphone(sound, narrow), sound)
    heard = recorded(heard)
    half = math.ceil(rows * 0.5)
    through_the_gate = gated(heard[:half], some(half, 0.35, device)[:, 0])
    return torch.cat([through_the_gate, heard[half:]])
