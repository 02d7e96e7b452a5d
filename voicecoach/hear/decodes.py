"""The decodes: several ways to listen to the same utterance, whose agreement is the evidence."""

from __future__ import annotations

import json
from typing import Any, Literal, Protocol, TypeAlias

from voicecoach.hear.fronts import Front
from voicecoach.value import Value

UNKNOWN = "[unk]"
"""The recogniser's word for a word it was not told of."""
_UNKNOWNS = 10
"""The unknown word is listed several times: with one, seven times as much chatter was filed."""
_SENTENCES = 3_000

Question: TypeAlias = Any
"""An open question. The ear stands left of the stage that gives it its form, so it only hands it to
the phrase book, which knows the answers."""

Phrases = Literal["sentences", "words", "anything", "answers"]


class Book(Protocol):
    """What the ear needs of the phrase book."""

    def words(self) -> frozenset[str]:
        """Every word that may be heard."""
        ...

    def sample(self, count: int, seed: int) -> list[str]:
        """Whole sentences, as the recogniser spells them."""
        ...

    def slot_phrases(self) -> list[str]:
        """The parts that sentences are made of."""
        ...

    def answers(self, question: Question, /) -> list[str]:
        """What may be said to an open question."""
        ...

    def decoys(self) -> list[str]:
        """Words and phrases of ordinary talk, which no note has."""
        ...


class Decode(Value):
    """One way to listen."""

    name: str
    """How it is called in the readings."""
    phrases: Phrases
    """`sentences`: whole sentences and decoys; `words`: the words in any order; `anything`: dictation."""
    front: Front = "plain"
    """What is done to the sound first."""
    seed: int = 1
    """Which sentences are sampled."""
    alternatives: int = 0
    """How many alternatives; with any, the recogniser gives no confidence for each word."""


ANSWERS = Decode(name="answers", phrases="answers", alternatives=5)
"""Runs beside the others while a question is open."""
MAIN = Decode(name="sentences", phrases="sentences")
"""The decode whose words are the text, and that is asked while speech goes on."""
DECODES = (
    MAIN,
    Decode(name="sentences-2", phrases="sentences", seed=2, alternatives=10),
    Decode(name="words", phrases="words", alternatives=10),
)


def grammar(decode: Decode, book: Book, answers: tuple[str, ...] = ()) -> str | None:
    """The decode's phrase list as the recogniser takes it; None lets it hear anything."""
    if decode.phrases == "anything":
        return None
    return json.dumps([*_phrases(decode, book, answers), *[UNKNOWN] * _UNKNOWNS])


def _phrases(decode: Decode, book: Book, answers: tuple[str, ...]) -> list[str]:
    if decode.phrases == "answers":
        return list(answers)
    if decode.phrases == "words":
        return sorted(book.words())
    return [*book.sample(_SENTENCES, decode.seed), *book.slot_phrases(), *book.decoys()]
