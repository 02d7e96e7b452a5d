"""Reads what the lesson needs of a Kaldi model in binary, with the place of every weight in the file.

Source: the Kaldi toolkit's own input and output (src/base/io-funcs.h, src/matrix, src/nnet3, src/ivector;
from memory), tried on one model: vosk's small US English 0.15, whose network it reads from end to end.
"""

from __future__ import annotations

import re
import struct
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.floating]
WEIGHTS = Path("am") / "final.mdl"
"""The network's file in a model's folder."""
_WEIGHTS = ("LinearParams", "Params", "BiasParams")
_ARRAYS = {*_WEIGHTS, "StatsMean", "StatsVar", "ValueAvg", "DerivAvg", "OderivRms"}
_PAIRS = {"AlphaInOut", "RankInOut"}


@dataclass(frozen=True)
class Weights:
    """One matrix or vector of the network, and where it lies."""

    values: Array
    offset: int
    """Bytes from the beginning of the file."""


@dataclass
class Component:
    """One component of the network: its kind, its weights and the figures that are not weights."""

    kind: str
    arrays: dict[str, Weights] = field(default_factory=dict)
    numbers: dict[str, float] = field(default_factory=dict)
    offsets: tuple[int, ...] = ()
    """Frames that a time-delay component looks at, from the present one."""

    def weights(self) -> dict[str, Weights]:
        """What is learnt."""
        return {name: self.arrays[name] for name in _WEIGHTS if name in self.arrays}


class Reader:
    """Goes through the bytes of a file."""

    def __init__(self, data: bytes, at: int = 0) -> None:
        self.data = data
        self.at = at

    def token(self) -> str:
        """The next word; it ends in a space."""
        end = self.data.index(b" ", self.at)
        text = self.data[self.at : end].decode("latin-1")
        self.at = end + 1
        return text

    def integer(self) -> int:
        """The next whole number: a byte that says 4, then four bytes."""
        return int(self._number("<i", 4))

    def real(self) -> float:
        """The next number with a point: four bytes or eight, as the byte before says."""
        return float(self._number("<f", 4) if self.data[self.at] == 4 else self._number("<d", 8))

    def integers(self) -> tuple[int, ...]:
        """A list of whole numbers; each takes four bytes."""
        if self.data[self.at] != 4:
            raise ValueError(f"no list of whole numbers at byte {self.at}")
        (count,) = struct.unpack_from("<i", self.data, self.at + 1)
        found = struct.unpack_from(f"<{count}i", self.data, self.at + 5)
        self.at += 5 + 4 * count
        return found

    def array(self) -> Weights:
        """A matrix, a vector or the lower half of a symmetric matrix, in single or double precision."""
        kind = self.token()
        if kind not in {"FM", "DM", "FV", "DV", "FP", "DP"}:
            raise ValueError(f"no matrix at byte {self.at}: {kind}")
        dtype = np.dtype("<f4" if kind[0] == "F" else "<f8")
        rows = self.integer()
        columns = self.integer() if kind[1] == "M" else 1
        count = rows * (rows + 1) // 2 if kind[1] == "P" else rows * columns
        start = self.at
        values = np.frombuffer(self.data, dtype, count, start)
        self.at += count * dtype.itemsize
        return Weights(_shaped(values, kind[1], rows, columns), start)

    def _number(self, form: str, size: int) -> float:
        if self.data[self.at] != size:
            raise ValueError(f"no number of {size} bytes at byte {self.at}")
        (value,) = struct.unpack_from(form, self.data, self.at + 1)
        self.at += 1 + size
        return float(value)


def _shaped(values: Array, kind: str, rows: int, columns: int) -> Array:
    if kind == "V":
        return values
    if kind == "M":
        return values.reshape(rows, columns)
    lower = np.zeros((rows, rows), values.dtype)
    lower[np.tril_indices(rows)] = values
    return np.asarray(lower + np.tril(lower, -1).T)


def components(data: bytes) -> dict[str, Component]:
    """The network's components by name, from the bytes of a `final.mdl`.

    Raises:
        ValueError: It is no model of this kind.
    """
    reader = Reader(data, data.index(b"<NumComponents> "))
    reader.token()
    found = {}
    for _ in range(reader.integer()):
        if reader.token() != "<ComponentName>":
            raise ValueError(f"no component begins at byte {reader.at}")
        name = reader.token()
        found[name] = _component(reader)
    return found


def _component(reader: Reader) -> Component:
    component = Component(reader.token())
    end = f"</{component.kind[1:]}"
    while (tag := reader.token()) != end:
        name = tag[1:-1]
        if name in _ARRAYS:
            component.arrays[name] = reader.array()
        elif name == "TimeOffsets":
            component.offsets = reader.integers()
        elif name in _PAIRS:
            reader.at += 10
        elif reader.data[reader.at : reader.at + 1] in (b"T", b"F"):
            component.numbers[name] = float(reader.data[reader.at : reader.at + 1] == b"T")
            reader.at += 1
        elif reader.data[reader.at : reader.at + 1] != b"<":  # a bare flag has no value
            component.numbers[name] = _figure(reader)
    return component


def _figure(reader: Reader) -> float:
    """A number whose kind the file doesn't say: small whole numbers look like no sensible fraction."""
    if reader.data[reader.at] != 4:
        return reader.real()
    (whole,) = struct.unpack_from("<i", reader.data, reader.at + 1)
    return float(whole) if abs(whole) < 1_000_000 and reader.integer() == whole else reader.real()


@dataclass(frozen=True)
class SpeakerModel:
    """What the recogniser adapts itself to a voice with: the extractor of its online i-vectors."""

    splice: Array
    """From seven frames to forty figures, with the offset as the last column."""
    gaussians: dict[str, Array]
    """The universal background model: GCONSTS, MEANS_INVVARS, INV_VARS and WEIGHTS."""
    means: Array
    precisions: Array
    offset: float
    cmvn: Array
    """Sums and counts of the global mean."""


def speaker_model(folder: Path) -> SpeakerModel:
    """Read the folder `ivector` of a model."""
    mixture = Reader((folder / "final.dubm").read_bytes(), 2)
    _expect(mixture, "<DiagGMM>")
    gaussians = {}
    while not (tag := mixture.token()).startswith("</"):
        gaussians[tag[1:-1]] = mixture.array().values
    extractor = Reader((folder / "final.ie").read_bytes(), 2)
    for tag in ("<IvectorExtractor>", "<w>"):
        _expect(extractor, tag)
    extractor.array()
    _expect(extractor, "<w_vec>")
    extractor.array()
    _expect(extractor, "<M>")
    count = extractor.integer()
    means = np.stack([extractor.array().values for _ in range(count)])
    _expect(extractor, "<SigmaInv>")
    precisions = np.stack([extractor.array().values for _ in range(count)])
    _expect(extractor, "<IvectorOffset>")
    numbers = re.findall(r"[-+0-9.eE]+", (folder / "global_cmvn.stats").read_text(encoding="ascii"))
    return SpeakerModel(
        splice=Reader((folder / "final.mat").read_bytes(), 2).array().values,
        gaussians=gaussians,
        means=means,
        precisions=precisions,
        offset=extractor.real(),
        cmvn=np.array([float(one) for one in numbers]).reshape(2, -1),
    )


def _expect(reader: Reader, tag: str) -> None:
    found = reader.token()
    if found != tag:
        raise ValueError(f"{tag} was expected before byte {reader.at}, and there is {found}")


def written(data: bytes, changed: Mapping[int, Array]) -> bytes:
    """The model with other weights, in single precision, each at its place; every other byte stays."""
    out = bytearray(data)
    for offset, values in changed.items():
        raw = np.ascontiguousarray(values, "<f4").tobytes()
        out[offset : offset + len(raw)] = raw
    return bytes(out)


def mixed(original: bytes, student: bytes, share: float) -> bytes:
    """The original's weights, moved towards the student's by this share."""
    first, second = components(original), components(student)
    changed = {}
    for name, component in first.items():
        for which, weights in component.weights().items():
            if weights.values.size:
                other = second[name].arrays[which].values
                changed[weights.offset] = weights.values + share * (other - weights.values)
    return written(original, changed)
