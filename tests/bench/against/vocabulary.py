"""What more vocabulary costs: phrase lists of a quarter, half and all of the sentences."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from typing import Any

from tests.bench.against.sounds import Recorded
from tests.bench.against.spent import processor_s
from voicecoach import phrasebook
from voicecoach.hear.blocks import RATE_HZ
from voicecoach.hear.decoder import Decoder, model_at
from voicecoach.hear.decodes import DECODES, MAIN, PhraseLists
from voicecoach.hear.recogniser import Recogniser
from voicecoach.model_store import model_path
from voicecoach.phrasebook.book import PhraseBook

PARTS = (("a quarter", 0.25), ("half", 0.5), ("all", 1.0))
TRIES = 2


def lines(recorded: Sequence[Recorded]) -> Iterator[str]:
    """The table's lines."""
    model = model_at(model_path())
    for name, part in PARTS:
        yield _line(name, part, recorded, model)


class PartOfBook:
    """The phrase book with a part of its sentences; its words are all there."""

    def __init__(self, book: PhraseBook, part: float) -> None:
        self._book = book
        self._part = part
        self.words, self.slot_phrases = book.words, book.slot_phrases
        self.decoys = book.decoys

    def sample(self, each: int, seed: int, kind: str | None = None) -> list[str]:
        """The part of the sentences that so many of each template are."""
        return self._book.sample(round(each * self._part), seed, kind)


def _line(name: str, part: float, recorded: Sequence[Recorded], model: Any) -> str:
    book = PartOfBook(phrasebook.load(), part)
    sentences = sum(phrase.count(" ") > 0 for phrase in json.loads(PhraseLists(book).grammar(MAIN) or "[]"))
    built_s = processor_s(lambda: _built(model, book), TRIES)
    recogniser = Recogniser(model_path(), book)
    spent_s = processor_s(lambda: [recogniser.hear(line.samples) for line in recorded], TRIES)
    seconds = sum(line.samples.size for line in recorded) / RATE_HZ
    return (
        f"Phrase list, {name} of it ({sentences} phrases of several words), {len(DECODES)} decodes: built in "
        f"{built_s:.2f} s; recognition {spent_s / seconds:.3f} of the length of the sound."
    )


def _built(model: Any, book: PartOfBook) -> list[Decoder]:
    """What a recogniser makes of a phrase list when it starts, the model being there."""
    lists = PhraseLists(book)
    return [Decoder(model, decode, lists.grammar(decode)) for decode in DECODES]
