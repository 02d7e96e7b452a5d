"""What the acoustic model is given, in PyTorch: its cepstra, and the i-vector by which it knows a voice.

Both as the recogniser makes them: 40 cepstra of 40 mel bands from 20 to 7,600 Hz every 10 ms (the model's own
conf/mfcc.conf), and an online i-vector for each chunk of 21 frames, from what was heard until its end.
"""

from __future__ import annotations

import numpy as np
import torch
from torch.nn import functional

from tests.bench.lesson.kaldi import Array, SpeakerModel
from tests.bench.lesson.network import CHUNK, Tensor

_FRAME, _STEP, _BANDS = 400, 160, 40
_QUIET = 0.001
"""How much a frame of silence counts for the i-vector (the recogniser's own figure)."""
_WINDOW, _PRIOR = 600, 200
"""Frames over which the mean is taken, and as how many the global mean counts at first."""
_SILENT = (0, 1, 42, 312)
"""Outputs that mean silence (from the model's transitions)."""


class Mfcc:
    """Samples to cepstra."""

    def __init__(self, device: str) -> None:
        window = (0.5 - 0.5 * np.cos(2 * np.pi * np.arange(_FRAME) / (_FRAME - 1))) ** 0.85
        self._window, self._bands, self._cosines = (
            torch.tensor(one, dtype=torch.float32, device=device)
            for one in (window, _mel(), _lifted_cosines())
        )

    def __call__(self, sound: Tensor, dither: float = 1.0) -> Tensor:
        """Cepstra (rows, frames, 40) of sound (rows, samples) whose full scale is 1."""
        frames = (sound * 32_768).unfold(1, _FRAME, _STEP)
        frames = frames + dither * torch.randn_like(frames)
        frames = frames - frames.mean(2, keepdim=True)
        frames = torch.cat([frames[..., :1] * 0.03, frames[..., 1:] - 0.97 * frames[..., :-1]], 2)
        power = torch.fft.rfft(frames * self._window, 512).abs() ** 2
        bands = torch.log(torch.clamp(power @ self._bands.T, min=1.1920929e-07))
        return bands @ self._cosines.T


def _mel() -> Array:
    """How much of each of 257 pitches goes into each band."""

    def mel(hertz: Array) -> Array:
        return 1_127 * np.log(1 + hertz / 700)

    lowest, highest = mel(np.array([20.0, 7_600.0])).tolist()
    edges = np.linspace(lowest, highest, _BANDS + 2)
    pitches = mel(np.arange(257) * 16_000 / 512)
    up = (pitches[None] - edges[:-2, None]) / np.diff(edges)[:-1, None]
    down = (edges[2:, None] - pitches[None]) / np.diff(edges)[1:, None]
    bands = np.maximum(np.minimum(up, down), 0)
    bands[:, 256] = 0
    return np.asarray(bands)


def _lifted_cosines() -> Array:
    numbers = np.arange(_BANDS)
    cosines = np.sqrt(2 / _BANDS) * np.cos(np.pi / _BANDS * np.outer(numbers, numbers + 0.5))
    cosines[0] = np.sqrt(1 / _BANDS)
    return np.asarray(cosines * (1 + 11 * np.sin(np.pi * numbers / 22))[:, None])


class Ivectors:
    """Cepstra to the i-vectors of a voice."""

    def __init__(self, model: SpeakerModel, device: str) -> None:
        def put(values: Array) -> Tensor:
            return torch.tensor(np.array(values, np.float32), device=device)

        precise = np.einsum("gij,gjk->gik", model.precisions.astype(np.float64), model.means)
        square = np.einsum("gji,gjk->gik", model.means, precise)
        self._splice, self._mean = put(model.splice), put(model.cmvn[0, :-1] / model.cmvn[0, -1]).double()
        self._constants = put(model.gaussians["GCONSTS"])
        self._scaled_means = put(model.gaussians["MEANS_INVVARS"])
        self._precisions = put(model.gaussians["INV_VARS"])
        self._precise, self._square = put(precise), put(square.reshape(len(square), -1))
        self._offset, self._size = model.offset, model.means.shape[2]

    def __call__(self, cepstra: Tensor, counted: Tensor) -> Tensor:
        """I-vectors (rows, chunks, 30).

        Args:
            cepstra: (rows, frames, 40).
            counted: (rows, chunks, 21), of `counted_frames`: how much each frame counts.
        """
        rows, chunks = counted.shape[:2]
        spliced, shares = self._aligned(cepstra, chunks)
        steps = torch.arange(chunks, device=cepstra.device)
        known, now = (steps - 1).clamp(min=0), (steps + 1).clamp(max=chunks)
        last = counted.reshape(rows, -1)[:, (known * CHUNK - 1).clamp(min=0)][..., None]
        last = torch.where((steps < 2)[None, :, None], torch.full_like(last, _QUIET), last)
        settled = (steps >= 2)[None, :, None]
        sums = []
        weighed_sums = self._statistics(spliced, shares * counted[..., None])
        for weighed, alike in zip(weighed_sums, self._statistics(spliced, shares), strict=True):
            until_now = alike[:, now] - alike[:, known]
            sums.append(weighed[:, known] * settled + last * until_now)
        linear, square = sums
        ones = torch.eye(self._size, device=cepstra.device)
        linear[..., 0] += self._offset
        found = torch.linalg.solve(square.view(rows, chunks, *ones.shape) + ones, linear[..., None])[..., 0]
        found[..., 0] -= self._offset
        return found

    def _aligned(self, cepstra: Tensor, chunks: int) -> tuple[Tensor, Tensor]:
        """Spliced frames, and each one's share in the Gaussians: (rows, chunks, 21, 40 and 512)."""
        spliced, normal = self._spliced(cepstra), self._spliced(cepstra - self._running_mean(cepstra))
        likely = self._constants + normal @ self._scaled_means.T - 0.5 * normal**2 @ self._precisions.T
        best, which = likely.topk(5, 2)
        shares = (best - torch.logsumexp(likely, 2, keepdim=True)).exp()
        kept = shares > 0.025
        kept[..., 0] = True
        shares = shares * kept
        shares = 0.1 * shares / shares.sum(2, keepdim=True)
        missing = (0, 0, 0, chunks * CHUNK - cepstra.shape[1])
        full = torch.zeros(*cepstra.shape[:2], self._constants.shape[0], device=cepstra.device)
        full = functional.pad(full.scatter_(2, which, shares), missing)
        spliced = functional.pad(spliced, missing)
        return tuple(one.view(one.shape[0], chunks, CHUNK, -1) for one in (spliced, full))

    def _statistics(self, spliced: Tensor, shares: Tensor) -> list[Tensor]:
        """What the frames before each chunk say: linear and square, with one chunk more than there are."""
        first = torch.einsum("bntg,bntd->bngd", shares, spliced)
        linear = torch.einsum("bngd,gdi->bni", first, self._precise)
        square = shares.sum(2) @ self._square
        return [functional.pad(one.cumsum(1), (0, 0, 1, 0)) for one in (linear, square)]

    def _spliced(self, cepstra: Tensor) -> Tensor:
        frames = cepstra.shape[1]
        places = torch.arange(frames, device=cepstra.device)
        wide = torch.cat([cepstra[:, (places + by).clamp(0, frames - 1)] for by in range(-3, 4)], 2)
        return wide @ self._splice[:, :-1].T + self._splice[:, -1]

    def _running_mean(self, cepstra: Tensor) -> Tensor:
        """The mean of the last six seconds, the global mean standing in for what is missing at first."""
        sums = functional.pad(cepstra.double().cumsum(1), (0, 0, 1, 0))
        ends = torch.arange(cepstra.shape[1], device=cepstra.device) + 1
        starts = (ends - _WINDOW).clamp(min=0)
        count = (ends - starts).double()[:, None]
        prior = (_WINDOW - count).clamp(max=_PRIOR)
        return ((sums[:, ends] - sums[:, starts] + prior * self._mean) / (count + prior)).float()


def counted_frames(chain: Tensor, chunks: int) -> Tensor:
    """How much each frame counts for the i-vector, by the likeliest output of each: silence hardly does.

    Args:
        chain: The network's first output, (rows, frames / 3, 2192).
        chunks: How many chunks of 21 frames there are.
    """
    best = chain.argmax(-1)
    silent = torch.zeros_like(best, dtype=torch.bool)
    for output in _SILENT:
        silent |= best == output
    counted = torch.where(silent, _QUIET, 1.0).repeat_interleave(3, 1)
    counted = functional.pad(counted, (0, max(0, chunks * CHUNK - counted.shape[1])), value=_QUIET)
    return counted[:, : chunks * CHUNK].reshape(len(counted), chunks, CHUNK)
