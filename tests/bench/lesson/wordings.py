"""What the voices of the lesson say: notes in other words than the bench's, and talk of every kind."""

from __future__ import annotations

import random
from importlib import resources
from typing import Any

import yaml

from tests.bench.hearing.lines import filled_text

_NOTES = 0.65
"""This share of what is said is a note, a question or an answer; the rest is talk."""


def book() -> dict[str, Any]:
    """The lesson's wordings as they are written."""
    text = (resources.files(__package__) / "wordings.yaml").read_text(encoding="utf-8")
    wordings: dict[str, Any] = yaml.safe_load(text)
    return wordings


def sentences(count: int, seed: int) -> list[str]:
    """So many things to say, drawn with dice."""
    dice, wordings = random.Random(seed), book()
    talk = wordings["talk"]
    return [
        filled_text(dice.choice(wordings["notes"]), dice)
        if dice.random() < _NOTES
        else " ".join(dice.choice(talk[part]) for part in ("who", "did", "what", "where", "when")) + "."
        for _ in range(count)
    ]
