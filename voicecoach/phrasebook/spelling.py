"""Which spellings mean one word, and how a word that the speech model lacks is heard."""

from __future__ import annotations

import random
from collections.abc import Iterable, Mapping, Sequence

SINGULAR_AFTER = frozenset({"one", "a", "an", "half", "quarter"})
"""After these a unit is spoken in the singular."""


class Spelling:
    """Spellings, words that sound alike, and heard forms, as the book lists them."""

    def __init__(
        self,
        units: Mapping[str, Mapping[str, list[str]]],
        homophones: Mapping[str, list[str]],
        heard: Mapping[str, str],
    ) -> None:
        self._one = {word: forms["one"] for word, forms in units.items()}
        self._many = {word: forms["many"] for word, forms in units.items()}
        self._canonical = {
            form: word for word, forms in units.items() for form in [*forms["one"], *forms["many"]]
        }
        self._sound = {form: word for word, forms in homophones.items() for form in forms}
        self._heard = dict(heard)

    def canonical(self, word: str) -> str:
        """The book's spelling of a word."""
        return self._canonical.get(word, word)

    def sound(self, word: str) -> str:
        """One name for all words that sound like this one."""
        word = self.canonical(word)
        return self._sound.get(word, word)

    @property
    def heard(self) -> Mapping[str, str]:
        """The heard form of each word that the model lacks."""
        return self._heard

    def speak(self, words: Sequence[str], rng: random.Random) -> list[str]:
        """The words as the recogniser writes them; of two spellings of a unit, either."""
        before = ["", *words[:-1]]
        return [rng.choice(self._forms(word, last)) for last, word in zip(before, words, strict=True)]

    def spoken(self, phrase: str) -> list[str]:
        """The phrase as the recogniser writes it, with all its units in one spelling or in the other."""
        words = phrase.split()
        choices = [self._forms(word, last) for last, word in zip(["", *words[:-1]], words, strict=True)]
        longest = max(len(forms) for forms in choices)
        return sorted({" ".join(forms[i % len(forms)] for forms in choices) for i in range(longest)})

    def _forms(self, word: str, before: str) -> list[str]:
        unit = self.canonical(word)
        if unit not in self._one:
            return [self._heard.get(word, word)]
        return self._one[unit] if before in SINGULAR_AFTER else self._many[unit]

    def heard_forms(self, words: Iterable[str]) -> set[str]:
        """Every form in which the recogniser may write these words."""
        forms: set[str] = set()
        for word in words:
            unit = self.canonical(word)
            forms.update(
                [*self._one[unit], *self._many[unit]] if unit in self._one else self._forms(word, "")
            )
        return forms
