"""How many words were heard wrongly."""

from __future__ import annotations

import re
from collections.abc import Sequence

_UNLIKE = re.compile(r"[^a-z' ]")


def plain_words(text: str) -> list[str]:
    """Words without marks, and without what fills a pause."""
    return [word for word in _UNLIKE.sub(" ", text.lower()).split() if word not in ("um", "er", "unk")]


def edits(said: Sequence[str], heard: Sequence[str]) -> int:
    """The fewest words to add, leave out or change until one is the other."""
    row = list(range(len(heard) + 1))
    for place, word in enumerate(said, 1):
        last, row[0] = row[0], place
        for at, other in enumerate(heard, 1):
            last, row[at] = row[at], min(row[at] + 1, row[at - 1] + 1, last + (word != other))
    return row[-1]
