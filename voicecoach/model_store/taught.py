"""Weights that were taught noise, laid over the makers' model: beside it, so that it can be gone back to."""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import struct
import zlib
from pathlib import Path

import numpy as np
import numpy.typing as npt

from voicecoach.errors import ModelProblem
from voicecoach.model_store.manifest import Manifest, Taught, fault

Halves = npt.NDArray[np.float16]
_MAGIC = b"voicecoach weights 1\n"
"""How a file of weights begins. Then: how long the list of places is (four bytes), the list as JSON, and the
differences, packed by zlib: first the upper bytes of all of them, then the lower."""


def make(manifest: Manifest, taught: Taught, weights: Path, original: Path, target: Path) -> None:
    """Make the taught model's folder from the original's: one file is made anew, the others are the same.

    Raises:
        ModelProblem: The weights are not those of the manifest, or don't go with this model.
    """
    wrong = fault(weights.parent, taught.weights, thorough=True)
    if wrong:
        raise ModelProblem(f"The weights that were taught noise can't be used ({weights}): {wrong}")
    for file in manifest.files:
        if file.path != taught.changed.path and (original / file.path).is_file():
            _same(original / file.path, target / file.path)
    path = target / taught.changed.path
    path.parent.mkdir(parents=True, exist_ok=True)
    made = laid_over((original / taught.changed.path).read_bytes(), weights.read_bytes())
    if hashlib.sha256(made).hexdigest() != taught.changed.sha256:
        raise ModelProblem(
            f"{taught.changed.path} doesn't match its SHA-256 once the taught weights are in it"
        )
    path.write_bytes(made)


def _same(source: Path, target: Path) -> None:
    """The same file under another name; a copy where the disk knows no second names."""
    target.parent.mkdir(parents=True, exist_ok=True)
    try:
        os.link(source.resolve(), target)
    except OSError:
        shutil.copyfile(source, target)


def laid_over(original: bytes, weights: bytes) -> bytes:
    """The bytes of a model whose weights are moved by the differences in a file of weights.

    Raises:
        ModelProblem: It is no such file, or names places that the model doesn't have.
    """
    try:
        places, differences = unpacked(weights)
    except (ValueError, struct.error, zlib.error) as error:
        raise ModelProblem(f"This is no file of taught weights: {error}") from error
    made, used = bytearray(original), 0
    for offset, count in places:
        if not 0 <= offset <= len(original) - 4 * count:
            raise ModelProblem(f"The model has no {count} weights at byte {offset}")
        before = np.frombuffer(original, "<f4", count, offset)
        moved = before + differences[used : used + count].astype(np.float32)
        made[offset : offset + 4 * count] = moved.astype("<f4").tobytes()
        used += count
    return bytes(made)


def unpacked(weights: bytes) -> tuple[list[tuple[int, int]], Halves]:
    """The places (byte offset and count) and the differences, in half precision, of a file of weights.

    Raises:
        ValueError: It is no such file.
    """
    if not weights.startswith(_MAGIC):
        raise ValueError("it begins otherwise")
    start = len(_MAGIC) + 4
    (length,) = struct.unpack_from("<I", weights, len(_MAGIC))
    places = [(int(offset), int(count)) for offset, count in json.loads(weights[start : start + length])]
    total = sum(count for _, count in places)
    raw = zlib.decompressobj().decompress(weights[start + length :], 2 * total + 1)
    if len(raw) != 2 * total or min((count for _, count in places), default=0) < 0:
        raise ValueError("it doesn't hold as many differences as it says")
    halves = np.frombuffer(raw, np.uint8).reshape(2, -1)
    return places, np.ascontiguousarray(halves[::-1].T).view("<f2").ravel()


def packed(places: list[tuple[int, int]], differences: Halves) -> bytes:
    """A file of weights: where they lie (byte offset and count), and by how much each is moved."""
    listed = json.dumps(places).encode()
    halves = differences.astype("<f2").view(np.uint8).reshape(-1, 2)[:, ::-1].T
    return _MAGIC + struct.pack("<I", len(listed)) + listed + zlib.compress(halves.tobytes(), 9)
