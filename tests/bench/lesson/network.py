"""The acoustic model in PyTorch: the same sums as the recogniser makes, so that its weights can be taught.

A factored time-delay network (Povey and others, "Semi-orthogonal low-rank matrix factorization for deep
neural networks", Interspeech 2018): twelve layers with a bypass of 0.75, every third frame from the sixth on.
"""

from __future__ import annotations

from typing import Any, TypeAlias

import numpy as np
import torch
from torch.nn import functional

from tests.bench.lesson.kaldi import Array, Component

Tensor: TypeAlias = Any
"""PyTorch comes with the lesson alone; the type checker runs without it."""

LEFT, RIGHT = 26, 14
"""Frames before and after that an output looks at."""
CHUNK = 21
"""Frames that the recogniser takes at a time: each has one i-vector."""
_BYPASS = 0.75
_FACTORED = range(2, 13)
_THINNED_AT = 6
"""From this layer on only every third frame is computed."""


class Network:
    """Weights on a device, and what they make of features."""

    def __init__(self, components: dict[str, Component], device: str) -> None:
        self.weights: dict[int, Tensor] = {}
        """By the place of each in the file, bytes."""
        self._named: dict[str, Tensor] = {}
        self._norms: dict[str, tuple[Tensor, Tensor]] = {}
        self._offsets = {name: one.offsets for name, one in components.items() if one.offsets}
        for name, component in components.items():
            for which, found in component.weights().items():
                if found.values.size:
                    tensor = torch.tensor(np.array(found.values, np.float32), device=device)
                    self.weights[found.offset] = tensor
                    self._named[f"{name} {'b' if which == 'BiasParams' else 'w'}"] = tensor
            if component.kind == "<BatchNormComponent>":
                self._norms[name] = tuple(torch.tensor(one, device=device) for one in _norm(component))

    def learn(self) -> list[Tensor]:
        """Let the weights take gradients, and give them."""
        return [weight.requires_grad_(True) for weight in self.weights.values()]

    def arrays(self) -> dict[int, Array]:
        """The weights as they are now, by their place in the file."""
        return {offset: weight.detach().cpu().numpy() for offset, weight in self.weights.items()}

    def __call__(self, features: Tensor, ivectors: Tensor) -> tuple[Tensor, Tensor]:
        """What each third frame may be.

        Args:
            features: (rows, frames, 40) of `Mfcc`.
            ivectors: (rows, chunks, 30): one for each 21 frames.

        Returns:
            The outputs that are decoded with and the logarithms of the other branch's likelihoods,
            both (rows, frames / 3, 2192).
        """
        frames = features.shape[1]
        count = (frames + 2) // 3
        sound = features.transpose(1, 2)
        before = sound[:, :, :1].expand(-1, -1, LEFT)
        after = sound[:, :, -1:].expand(-1, -1, 3 * (count - 1) + RIGHT - (frames - 1))
        sound = self._with_deltas(torch.cat([before, sound, after], 2))
        first = 2 - LEFT
        times = torch.arange(sound.shape[2], device=sound.device) + first
        chunk = torch.div(times, CHUNK, rounding_mode="floor").clamp(0, ivectors.shape[1] - 1)
        sound = torch.cat([sound, ivectors[:, chunk].transpose(1, 2)], 1)
        sound = self._norm("tdnn1.batchnorm", functional.relu(self._plain("tdnn1.affine", sound)))
        sound = self._plain("prefinal-l", self._factored(sound, first))
        chain = self._head("prefinal-chain", "output.affine", sound)
        other = self._head("prefinal-xent", "output-xent.affine", sound)
        return chain, torch.log_softmax(other, -1)

    def _with_deltas(self, sound: Tensor) -> Tensor:
        middle = sound[:, :, 2:-2]
        slope = sound[:, :, 3:-1] - sound[:, :, 1:-3]
        bend = sound[:, :, :-4] + sound[:, :, 4:] - 2 * middle
        return self._norm("delta", torch.cat([middle, slope, bend], 1))

    def _factored(self, sound: Tensor, first: int) -> Tensor:
        stride = 1
        for number in _FACTORED:
            if number == _THINNED_AT:
                sound, stride = sound[:, :, (-first) % 3 :: 3], 3
            name = f"tdnnf{number}"
            found = self._delayed(f"{name}.linear", sound, stride)
            found = functional.relu(self._delayed(f"{name}.affine", found, stride))
            start = -self._offsets[f"{name}.linear"][0] // stride
            end = sound.shape[2] - self._offsets[f"{name}.affine"][-1] // stride
            sound = _BYPASS * sound[:, :, start:end] + self._norm(f"{name}.batchnorm", found)
            first = first + start if stride == 1 else first
        return sound

    def _head(self, before: str, last: str, sound: Tensor) -> Tensor:
        wide = self._norm(f"{before}.batchnorm1", functional.relu(self._plain(f"{before}.affine", sound)))
        narrow = self._norm(f"{before}.batchnorm2", self._plain(f"{before}.linear", wide))
        return self._plain(last, narrow).transpose(1, 2)

    def _plain(self, name: str, sound: Tensor) -> Tensor:
        return self._biased(name, torch.matmul(self._named[f"{name} w"], sound))

    def _delayed(self, name: str, sound: Tensor, stride: int) -> Tensor:
        offsets, weight = self._offsets[name], self._named[f"{name} w"]
        if len(offsets) == 1:
            return self._biased(name, torch.matmul(weight, sound))
        apart, size = (offsets[1] - offsets[0]) // stride, sound.shape[1]
        early = torch.matmul(weight[:, :size], sound[:, :, :-apart])
        return self._biased(name, early + torch.matmul(weight[:, size:], sound[:, :, apart:]))

    def _biased(self, name: str, sound: Tensor) -> Tensor:
        bias = self._named.get(f"{name} b")
        return sound if bias is None else sound + bias[:, None]

    def _norm(self, name: str, sound: Tensor) -> Tensor:
        scale, shift = self._norms[name]
        return sound * scale[:, None] + shift[:, None]


def _norm(component: Component) -> tuple[Array, Array]:
    """A batch norm as it works when nothing is learnt: it scales, then shifts."""
    mean = np.array(component.arrays["StatsMean"].values, np.float64)
    spread = np.maximum(component.arrays["StatsVar"].values.astype(np.float64), 0)
    scale = component.numbers["TargetRms"] / np.sqrt(spread + component.numbers["Epsilon"])
    return scale.astype(np.float32), (-mean * scale).astype(np.float32)
