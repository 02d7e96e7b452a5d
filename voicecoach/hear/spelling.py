"""The recogniser's spellings brought to the phrase book's."""

from __future__ import annotations

from collections.abc import Iterable

_ALIKE = {
    "meter": "metre",
    "meters": "metres",
    "centimeter": "centimetre",
    "centimeters": "centimetres",
    "grey": "gray",
    "to": "two",
    "too": "two",
    "for": "four",
    "fore": "four",
    "won": "one",
    "ate": "eight",
    "bowls": "bowl",
    "hour": "our",
    "hours": "ours",
    "there": "their",
    "they're": "their",
    "shorts": "short",
    "inside": "in",
}
"""Words that sound alike, or are one word in two spellings."""
_SPELT_TWICE = {
    "metre": "meter",
    "metres": "meters",
    "centimetre": "centimeter",
    "centimetres": "centimeters",
}
"""British to American: the model knows both, and pronounces them a little differently."""


def respell(text: str, words: frozenset[str]) -> str:
    """Bring each word that the phrase book lacks to the one it has, where they sound alike."""
    return " ".join(_respelt(word, words) for word in text.split())


def _respelt(word: str, words: frozenset[str]) -> str:
    if word in words:
        return word
    alike = _ALIKE.get(word)
    return alike if alike is not None and alike in words else word


def both_spellings(phrases: Iterable[str]) -> list[str]:
    """Every phrase, and again in American spelling where that differs; no phrase twice."""
    both: dict[str, None] = {}
    for phrase in phrases:
        both[phrase] = None
        both[" ".join(_SPELT_TWICE.get(word, word) for word in phrase.split())] = None
    return list(both)
