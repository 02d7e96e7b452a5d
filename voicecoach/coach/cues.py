"""A few phrases as a book for the ear: only they are heard, and everything else is soaked up."""

from collections.abc import Iterable, Sequence

from voicecoach import phrasebook


class Cues:
    """What the ear asks of a phrase book, for a closed list of phrases."""

    def __init__(self, phrases: Sequence[str]) -> None:
        self._phrases = list(phrases)
        self._words = frozenset(word for phrase in phrases for word in phrase.split())

    def words(self) -> frozenset[str]:
        """Every word of the phrases."""
        return self._words

    def sample(self, count: int, seed: int) -> list[str]:
        """The phrases."""
        return self._phrases[:count]

    def slot_phrases(self) -> list[str]:
        """None: there are no parts."""
        return []

    def answers(self, question: object, /) -> list[str]:
        """The phrases."""
        return self._phrases

    def decoys(self) -> list[str]:
        """Words of ordinary talk that no phrase has."""
        return [each for each in phrasebook.load().decoys() if not self._words & set(each.split())]


def alike(texts: Iterable[str]) -> str | None:
    """The words that every way of listening heard; None where they differ: nothing is taken by chance."""
    heard = {" ".join(text.split()) for text in texts}
    return heard.pop() if len(heard) == 1 else None
