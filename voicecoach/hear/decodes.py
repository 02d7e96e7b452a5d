"""The decodes: several ways to listen to the same utterance, whose agreement is the evidence."""

from __future__ import annotations

import json
from functools import cached_property
from typing import Literal, Protocol
from zlib import crc32

from voicecoach.hear import values
from voicecoach.hear.fronts import Front
from voicecoach.value import Value

_UNKNOWNS = 10
"""How often the unknown word is listed. Listed once, seven times as much chatter was filed."""
_SENTENCES = 23
"""Sentences drawn from every template, so that nothing that may be said is left out."""
_USUAL, _USUAL_KIND = 60, "bowl_rested"
"""How many more are drawn for the kind that most notes are of, and which kind that is."""
_SHARES = 4
_DEAL = 3
"""The seed by which sentences are dealt out to shares: with this one, each share has all tens about equally
often."""

Phrases = Literal["sentences", "words", "anything", "answers"]


class Book(Protocol):
    """What the ear needs of the phrase book."""

    def words(self) -> frozenset[str]:
        """Every word that may be heard."""
        ...

    def sample(self, each: int, seed: int, kind: str | None = None) -> list[str]:
        """Whole sentences (of one kind of note), `each` of every template, as the recogniser spells them."""
        ...

    def slot_phrases(self) -> list[str]:
        """The parts that sentences are made of."""
        ...

    def decoys(self) -> list[str]:
        """Words and phrases of ordinary talk, which no note has."""
        ...


class Decode(Value):
    """One way to listen."""

    name: str
    """Its name in the hypotheses."""
    phrases: Phrases
    """`sentences`: whole sentences and decoys; `words`: the words in any order; `anything`: dictation."""
    front: Front = "plain"
    """What is done to the sound first."""
    without: int = 0
    """Which quarter of the sentences is left out: the decodes then differ in what they find likely."""
    alternatives: int = 0
    """How many alternatives it gives. With any, the recogniser gives no confidence for each word."""
    in_noise: bool | None = None
    """True: it counts only in noise. False: only without noise, or drowned in it. None: always."""

    def counts(self, *, in_noise: bool) -> bool:
        """True where its hypotheses count as evidence, with noise or without."""
        return self.in_noise in (None, in_noise)


ANSWERS = Decode(name=values.ANSWERS, phrases="answers", alternatives=5)
"""Runs beside the others while a question is open."""
MAIN = Decode(name="sentences", phrases="sentences", in_noise=False)
"""The decode whose words are the text. It is also the one that is asked while speech goes on."""
DECODES = (
    MAIN,
    Decode(name="alternatives", phrases="sentences", without=1, alternatives=10, in_noise=False),
    Decode(name="gated", phrases="sentences", front="gated", without=2, alternatives=10),
    Decode(name="sentences", phrases="sentences", front="gated", in_noise=True),
    Decode(
        name="alternatives",
        phrases="sentences",
        front="gated harder",
        without=1,
        alternatives=10,
        in_noise=True,
    ),
)
"""Three of them count at a time, at about a tenth of real time on one core. Each makes mistakes of its own.

In noise the first two take gated sound. Without the gate they hear a third fewer notes rightly there, and
outvote the others.
"""
NAMES = tuple(dict.fromkeys(decode.name for decode in DECODES))
MOST, LEAST = len(NAMES), 2
"""How many count at a time, and how many do at least: alone, the main one filed one note in 25 wrongly in
noise (`python -m tests.bench.hearing.fewer`)."""


def fewer(count: int) -> tuple[Decode, ...]:
    """The decodes of which so many count at a time: of all, those that are missed least."""
    return tuple(decode for decode in DECODES if decode.name in NAMES[:count])


class PhraseLists:
    """The phrase lists of one book: its sentences are drawn once, for all decodes."""

    def __init__(self, book: Book) -> None:
        self._book = book

    @cached_property
    def _sentences(self) -> list[str]:
        usual = self._book.sample(_USUAL, 2, _USUAL_KIND)
        return list(dict.fromkeys([*usual, *self._book.sample(_SENTENCES, 1)]))

    def grammar(self, decode: Decode, answers: tuple[str, ...] = ()) -> str | None:
        """The decode's phrase list as the recogniser takes it; None lets it hear anything."""
        if decode.phrases == "anything":
            return None
        return json.dumps([*self._phrases(decode, answers), *[values.UNKNOWN] * _UNKNOWNS])

    def _phrases(self, decode: Decode, answers: tuple[str, ...]) -> list[str]:
        if decode.phrases == "answers":
            return list(answers)
        if decode.phrases == "words":
            return sorted(self._book.words())
        kept = [one for one in self._sentences if crc32(one.encode(), _DEAL) % _SHARES != decode.without]
        kept += self._book.slot_phrases()
        unsaid = self._book.words().difference(" ".join(kept).split())
        return [*kept, *sorted(unsaid), *self._book.decoys()]
