"""Brings the recogniser's two spellings of a unit to one. What sounds alike is left to the parser."""

from __future__ import annotations

_BRITISH = {
    "meter": "metre",
    "meters": "metres",
    "centimeter": "centimetre",
    "centimeters": "centimetres",
    "millimeter": "millimetre",
    "millimeters": "millimetres",
}
"""The model knows both and pronounces them a little differently, so both are listened for."""


def british(text: str) -> str:
    """The words with single spaces, units in British spelling."""
    return " ".join(_BRITISH.get(word, word) for word in text.split())
