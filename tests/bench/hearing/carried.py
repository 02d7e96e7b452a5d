"""Which words carry: how often each word that was said stands in what the main decode heard."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterable
from difflib import SequenceMatcher

from tests.bench.hearing.table import Result

SAID_OFTEN = 20
"""A word said less often than this is left out: its share would say little."""
_WORD = re.compile(r"[a-z]+(?:'[a-z]+)?")


def carried(results: Iterable[Result], spelling: Callable[[str], str]) -> list[str]:
    """A title and a line for each word said often, the best heard first."""
    said: Counter[str] = Counter()
    heard: Counter[str] = Counter()
    for one in results:
        if one.trial.meaning is not None:
            words = _words(one.trial.text, spelling)
            said.update(words)
            heard.update(_found(words, _words(" ".join(each.text for each in one.trial.heard), spelling)))
    often = sorted(
        (word for word in said if said[word] >= SAID_OFTEN), key=lambda word: -heard[word] / said[word]
    )
    return [
        "words that were said, and how many of them were heard",
        *(
            f"  {word}: {heard[word]} of {said[word]}, {100 * heard[word] / said[word]:.0f} %"
            for word in often
        ),
    ]


def _words(text: str, spelling: Callable[[str], str]) -> list[str]:
    return [spelling(word) for word in _WORD.findall(text.lower())]


def _found(said: list[str], heard: list[str]) -> list[str]:
    """The said words that stand in what was heard, in the same order."""
    matched = SequenceMatcher(None, said, heard, autojunk=False).get_matching_blocks()
    return [word for block in matched for word in said[block.a : block.a + block.size]]
