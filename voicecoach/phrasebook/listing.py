"""The sentences one can say, as a list for the README."""

from __future__ import annotations

from itertools import groupby

from voicecoach.phrasebook.book import PhraseBook


def markdown(book: PhraseBook) -> str:
    """Every example of the book under what it is an example of."""
    lines = []
    for about, examples in groupby(book.examples(), key=lambda example: example.about):
        lines += [f"**{about}**", "", *(f"- {example.sentence}" for example in examples), ""]
    return "\n".join(lines)
