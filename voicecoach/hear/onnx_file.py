"""Reads the named constants of a network kept as an ONNX file, and nothing else of it.

Sources: `onnx.proto` of the Open Neural Network Exchange for what each field is, and "Encoding" of Protocol
Buffers for how it is written: a number for the field and its kind, then a value. The library onnx reads
such files whole, and is larger than all that is read here.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import prod

import numpy as np
from numpy.typing import NDArray

GRAPH = 7
"""In a model."""
NODE = 1
"""In a graph."""
OUTPUT, ATTRIBUTE = 2, 5
"""In a node."""
NAME, TENSOR, BRANCH = 1, 5, 6
"""In an attribute."""
SHAPE, TYPE, NUMBERS = 1, 2, 9
"""In a tensor."""
FLOAT = 1
"""The type of a tensor of 32-bit numbers."""


def constants(data: bytes, branch: str) -> dict[str, NDArray[np.float32]]:
    """The 32-bit constants in one branch of a network that begins with a choice, by the end of their names.

    Args:
        data: The file.
        branch: `then_branch` or `else_branch`.

    Raises:
        ValueError: It isn't such a file.
    """
    found: dict[str, NDArray[np.float32]] = {}
    for graph in _parts(memoryview(data), GRAPH):
        for node in _parts(graph, NODE):
            for attribute in _parts(node, ATTRIBUTE):
                if _text(attribute, NAME) == branch:
                    for inner in _parts(attribute, BRANCH):
                        found.update(_named(inner))
    return found


def _named(graph: memoryview) -> Iterator[tuple[str, NDArray[np.float32]]]:
    for node in _parts(graph, NODE):
        for attribute in _parts(node, ATTRIBUTE):
            for tensor in _parts(attribute, TENSOR):
                numbers = _parts(tensor, NUMBERS)
                if _numbers(tensor, TYPE) == [FLOAT] and numbers:
                    shape = _numbers(tensor, SHAPE)
                    matrix = np.frombuffer(numbers[0], "<f4", prod(shape)).reshape(shape)
                    # A copy: what only looks into the file would keep all of it in memory.
                    yield _text(node, OUTPUT).rpartition("__")[2], matrix.copy()


def _parts(message: memoryview, field: int) -> list[memoryview]:
    return [value for number, value in _fields(message) if number == field and isinstance(value, memoryview)]


def _numbers(message: memoryview, field: int) -> list[int]:
    """Numbers one by one, or packed."""
    found: list[int] = []
    for number, value in _fields(message):
        if number == field and isinstance(value, int):
            found.append(value)
        elif number == field and isinstance(value, memoryview):
            at = 0
            while at < len(value):
                one, at = _number(value, at)
                found.append(one)
    return found


def _text(message: memoryview, field: int) -> str:
    return next((bytes(part).decode() for part in _parts(message, field)), "")


def _fields(message: memoryview) -> Iterator[tuple[int, int | memoryview]]:
    """Every field of a message with its number: what has a fixed size comes as its bytes."""
    at = 0
    while at < len(message):
        key, at = _number(message, at)
        number, kind = key >> 3, key & 7
        if kind == 0:
            value, at = _number(message, at)
            yield number, value
            continue
        if kind not in (1, 2, 5):
            raise ValueError(f"a field of kind {kind}")
        size, at = _number(message, at) if kind == 2 else ({1: 8, 5: 4}[kind], at)
        if at + size > len(message):
            raise ValueError("it ends too soon")
        yield number, message[at : at + size]
        at += size


def _number(message: memoryview, at: int) -> tuple[int, int]:
    """A number in groups of seven bits, the lowest first, and where it ends."""
    number = shift = 0
    while at < len(message):
        byte = message[at]
        number |= (byte & 0x7F) << shift
        shift += 7
        at += 1
        if byte < 0x80:
            return number, at
    raise ValueError("it ends too soon")
