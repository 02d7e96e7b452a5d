"""Which spellings mean one word, and how a word that the speech model lacks is heard."""

from __future__ import annotations

import random
import re
from collections.abc import Iterable, Mapping, Sequence

from voicecoach.phrasebook.wording import listed

ONE = frozenset({"one", "a", "an"})
"""After these a unit is spoken in the singular, unless they end a longer number."""
ENDS_NUMBER = frozenset({"point", *listed("numbers.tens")})


class Spelling:
    """Spellings, words that sound alike, and heard forms, as the book lists them."""

    def __init__(
        self,
        units: Mapping[str, Mapping[str, list[str]]],
        homophones: Mapping[str, list[str]],
        typed: Mapping[str, str],
        heard: Mapping[str, str],
    ) -> None:
        self._one = {word: forms["one"] for word, forms in units.items()}
        self._many = {word: forms["many"] for word, forms in units.items()}
        self._canonical = {
            form: word for word, forms in units.items() for form in [*forms["one"], *forms["many"]]
        }
        self._canonical.update(typed)
        self._sound = {form: word for word, forms in homophones.items() for form in forms}
        self._heard = dict(heard)
        self._longest_first = sorted(self._heard.items(), key=lambda pair: -len(pair[1]))

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

    def written(self, text: str) -> str:
        """The text as people write it, with words that the model lacks: "a toucher", not "a touch her"."""
        for word, heard in self._longest_first:
            if heard in text:
                text = re.sub(rf"\b{heard}\b", word, text)
        return text

    def speak(self, words: Sequence[str], rng: random.Random) -> list[str]:
        """The words as the recogniser writes them; of two spellings of a unit, either."""
        return [rng.choice(forms) for forms in self._choices(words)]

    def spoken(self, phrase: str) -> list[str]:
        """The phrase as the recogniser writes it, with all its units in one spelling or in the other."""
        choices = self._choices(phrase.split())
        longest = max(len(forms) for forms in choices)
        return sorted({" ".join(forms[i % len(forms)] for forms in choices) for i in range(longest)})

    def _choices(self, words: Sequence[str]) -> list[list[str]]:
        """The forms of each word where it stands."""
        padded = ["", "", *words]
        return [self._forms(word, padded[at : at + 2]) for at, word in enumerate(words)]

    def _forms(self, word: str, before: Sequence[str]) -> list[str]:
        unit = self.canonical(word)
        if unit not in self._one:
            return [self._heard.get(word, word)]
        single = bool(before) and before[-1] in ONE and before[0] not in ENDS_NUMBER
        return self._one[unit] if single else self._many[unit]

    def heard_forms(self, words: Iterable[str]) -> set[str]:
        """Every form in which the recogniser may write these words."""
        forms: set[str] = set()
        for word in words:
            unit = self.canonical(word)
            forms.update(
                [*self._one[unit], *self._many[unit]] if unit in self._one else self._forms(word, "")
            )
        return forms
