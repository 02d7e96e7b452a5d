"""Gives memory that nothing uses any more back to the system."""

from __future__ import annotations

import ctypes
from collections.abc import Callable


def _trim() -> Callable[[int], int] | None:
    """The C library's own way to give memory back; None where it has none, as outside Linux."""
    try:
        trim: Callable[[int], int] = ctypes.CDLL(None).malloc_trim
    except (AttributeError, OSError, TypeError):
        return None
    return trim


_TRIM = _trim()


def give_back() -> None:
    """Make the C library give back memory that was freed. This takes a few milliseconds.

    The decodes of a long utterance take tens of megabytes in small pieces. glibc keeps them when they are
    freed, so that memory goes on rising with every crowd (malloc_trim(3), Linux manual pages).
    """
    if _TRIM is not None:
        _TRIM(0)
