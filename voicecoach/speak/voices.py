"""The voices by the names that people use, and how well each was understood."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from voicecoach.speak.voice import DEFAULT_VOICE, NATURAL

WANTED = 0.98
"""The share of hours, and of distances, that must come back right from a voice that is advised."""


class Known(NamedTuple):
    """A voice that was measured: `python -m tests.bench.listening --voice ENGINE`, 177 sentences."""

    engine: str
    """What the voice engine calls it."""
    about: str
    hours: float
    """The share of hours that our own recogniser, which learnt American English, heard right."""
    distances: float

    @property
    def is_clear(self) -> bool:
        """True where at least 98 % of both came back."""
        return min(self.hours, self.distances) >= WANTED


KNOWN: Mapping[str, Known] = MappingProxyType(
    {
        "american": Known(DEFAULT_VOICE, "the usual voice", 1.0, 1.0),
        "british": Known("en-gb+f2", "British", 0.949, 0.994),
        "scottish": Known("en-gb-scotland+f2", "Scottish", 0.921, 0.904),
        "received": Known("en-gb-x-rp+f2", "British, received pronunciation", 0.977, 0.994),
        "lancaster": Known("en-gb-x-gbclan+f2", "British, Lancaster", 0.944, 0.989),
        "midlands": Known("en-gb-x-gbcwmd+f2", "British, West Midlands", 0.847, 0.876),
        "caribbean": Known("en-029+f2", "Caribbean", 0.972, 0.910),
        NATURAL: Known(NATURAL, "a neural voice, American", 1.0, 0.994),
    }
)


def engine(name: str | None) -> str:
    """What the voice engine calls a voice; the name itself for a system's own."""
    if name is None:
        return DEFAULT_VOICE
    return KNOWN[name].engine if name in KNOWN else name
