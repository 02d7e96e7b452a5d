"""The head, in words: from a director's spoken notes to a read-back of where every bowl lies.

These names are for other programs; `voicecoach/guide/library.md` shows them at work. Each is imported when
it is first asked for, so that `import voicecoach` costs next to nothing and needs neither a speech model
nor a sound library. Everything else in the package may change from one version to the next.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from voicecoach.conversation import Conversation
    from voicecoach.describe import Preferences, Sentence, read_back, sum_up
    from voicecoach.errors import Problem
    from voicecoach.head import picture
    from voicecoach.head.values import Head, Picture
    from voicecoach.hear.values import Heard
    from voicecoach.kept_book import load as phrase_book
    from voicecoach.phrasebook import PhraseBook
    from voicecoach.session.talk import Talk
    from voicecoach.session.turn import When, turn
    from voicecoach.session.values import Entry
    from voicecoach.understand.reading import Understanding
    from voicecoach.understand.values import Expected, Ranked, Unclear

    __version__: str

__all__ = [
    "Conversation",
    "Entry",
    "Expected",
    "Head",
    "Heard",
    "PhraseBook",
    "Picture",
    "Preferences",
    "Problem",
    "Ranked",
    "Sentence",
    "Talk",
    "Unclear",
    "Understanding",
    "When",
    "__version__",
    "phrase_book",
    "picture",
    "read_back",
    "sum_up",
    "turn",
]

_HOMES = {
    "Conversation": "conversation",
    "Entry": "session.values",
    "Expected": "understand.values",
    "Head": "head.values",
    "Heard": "hear.values",
    "PhraseBook": "phrasebook",
    "Picture": "head.values",
    "Preferences": "describe",
    "Problem": "errors",
    "Ranked": "understand.values",
    "Sentence": "describe",
    "Talk": "session.talk",
    "Unclear": "understand.values",
    "Understanding": "understand.reading",
    "When": "session.turn",
    "phrase_book": "kept_book:load",
    "picture": "head",
    "read_back": "describe",
    "sum_up": "describe",
    "turn": "session.turn",
}
"""The module that each name comes from, with the name that it has there where that is another."""

if not TYPE_CHECKING:  # with it, a type checker would take every misspelt name for one of these

    def __getattr__(name: str) -> object:
        """Import a public name when it is first asked for.

        Raises:
            AttributeError: There is no such public name.
        """
        if name == "__version__":
            found = import_module("importlib.metadata").version("voicecoach")
        elif name in _HOMES:
            found = _imported(name)
        else:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        globals()[name] = found
        return found


def _imported(name: str) -> object:
    home, _, named_there = _HOMES[name].partition(":")
    return getattr(import_module(f"{__name__}.{home}"), named_there or name)


def __dir__() -> list[str]:
    """The public names."""
    return list(__all__)
