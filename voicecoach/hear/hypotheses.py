"""The recogniser's results as values: words with their confidence, hypotheses with their weight."""

from __future__ import annotations

import math
from typing import Any

from voicecoach.hear.decodes import Decode
from voicecoach.hear.spelling import british
from voicecoach.hear.values import Hypothesis, Word


def words_of(result: dict[str, Any]) -> tuple[Word, ...]:
    """The words of one result, each with the recogniser's confidence."""
    if "alternatives" in result:
        text = british(str(result["alternatives"][0]["text"]))
        return tuple(Word(text=word, confidence=1.0) for word in text.split())
    return tuple(
        Word(text=british(said["word"]), confidence=min(1.0, float(said["conf"])))
        for said in result.get("result", ())
    )


def span_of(result: dict[str, Any]) -> float | None:
    """Seconds from the first word's beginning to the last word's end; None where no word has its times."""
    said = result.get("result", ())
    return float(said[-1]["end"]) - float(said[0]["start"]) if said else None


def hypotheses_of(decode: Decode, result: dict[str, Any]) -> list[Hypothesis]:
    """Every hypothesis of one decode, each transcript once; their weights add up to 1."""
    weights: dict[str, float] = {}
    for text, share in _shares(result):
        spelt = british(text)
        weights[spelt] = weights.get(spelt, 0.0) + share
    return [
        Hypothesis(decode=decode.name, text=text, weight=round(weight, 3))
        for text, weight in weights.items()
        if text
    ]


def best_first(found: list[Hypothesis]) -> tuple[Hypothesis, ...]:
    """The hypotheses by falling weight; equal ones by their words, since vosk gives them in any order."""
    return tuple(sorted(found, key=lambda one: (-one.weight, one.decode, one.text)))


def _shares(result: dict[str, Any]) -> list[tuple[str, float]]:
    """Texts with their share of belief: vosk's scores are logarithms."""
    if "alternatives" not in result:
        return [(str(result.get("text", "")), 1.0)]
    found = [(str(one["text"]).strip(), float(one["confidence"])) for one in result["alternatives"]]
    best = max(score for _, score in found)
    powers = [(text, math.exp(score - best)) for text, score in found]
    whole = sum(power for _, power in powers)
    return [(text, power / whole) for text, power in powers]
