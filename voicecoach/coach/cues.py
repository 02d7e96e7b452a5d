"""A few phrases as a book for the ear: only they are heard, and everything else is soaked up."""

from collections.abc import Callable, Sequence
from typing import TypeVar

from voicecoach import kept_book
from voicecoach.hear.values import Heard

Meaning = TypeVar("Meaning")


class Cues:
    """What the ear asks of a phrase book, for a closed list of phrases."""

    def __init__(self, phrases: Sequence[str]) -> None:
        self._phrases = list(phrases)
        self._words = frozenset(word for phrase in phrases for word in phrase.split())

    def words(self) -> frozenset[str]:
        """Every word of the phrases."""
        return self._words

    def sample(self, each: int, seed: int, kind: str | None = None) -> list[str]:
        """None: a sample might leave one out, and these are few enough to be heard in full."""
        return []

    def slot_phrases(self) -> list[str]:
        """The phrases."""
        return self._phrases

    def answers(self, question: object, /) -> list[str]:
        """The phrases, whatever was asked."""
        return self._phrases

    def decoys(self) -> list[str]:
        """Words of ordinary talk that no phrase has."""
        return [each for each in kept_book.load().decoys() if not self._words & set(each.split())]


def agreed(heard: Heard, meaning: Callable[[str], Meaning | None]) -> Meaning | None:
    """What was meant, if most ways of listening heard it and none heard another; typed words count alone."""
    first = {reading.decode: reading.text for reading in reversed(heard.readings)}
    texts = list(first.values()) or [heard.text]
    meant = [found for text in texts if (found := meaning(text)) is not None]
    return meant[0] if len(set(meant)) == 1 and 2 * len(meant) > len(texts) else None
