"""The phrase book: what may be said and what is spoken, as data."""

from voicecoach.phrasebook.book import PhraseBook, load

__all__ = ["PhraseBook", "load"]
