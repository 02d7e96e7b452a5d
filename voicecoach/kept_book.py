"""The phrase book as a start needs it: what is read from its templates, and drawn from them, is kept.

Its trees and the sentences for the ear's phrase lists hang on nothing but the files in the phrase book's
folder, code included, and on the libraries that read them. To work them out takes 0.4 s of a desktop core.
"""

from __future__ import annotations

import importlib
import sys
from contextlib import suppress
from functools import lru_cache
from hashlib import sha256
from importlib.metadata import version
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING, Any

from voicecoach import places
from voicecoach.errors import ModelProblem
from voicecoach.kept import kept
from voicecoach.phrasebook.book import SPEECH_MODEL, Instead, PhraseBook, read
from voicecoach.phrasebook.grammar import Node
from voicecoach.phrasebook.written import tree, written

if TYPE_CHECKING:
    from voicecoach.model_store.another import Another

LIBRARIES = ("hassil", "PyYAML")


def load() -> PhraseBook:
    """The book as the speech model in use needs it.

    It has the slips that are known of that model, if any, and how it hears the words that it lacks.
    """
    other = _another() if places.another_model().is_file() else None
    return _load(other.name, other.instead) if other else _load(SPEECH_MODEL, ())


def _another() -> Another | None:
    from voicecoach.model_store import another  # noqa: PLC0415 - few need it, and it takes its time

    with suppress(ModelProblem):  # told where the model is loaded; typed notes go on
        return another.used()
    return None


@lru_cache(maxsize=2)
def _load(model: str, instead: Instead) -> PhraseBook:
    key = _key(model, instead)
    return kept(
        places.cache() / "book.json",
        key,
        lambda: _read(model, instead),
        lambda data: Kept(data["sections"], data["trees"], key),
    )


class Kept(PhraseBook):
    """The book, with the trees of its templates as they were written down."""

    def __init__(self, sections: Any, trees: Any, key: str) -> None:
        """Make the book of what `_read` gives."""
        super().__init__(sections, lambda template: tree(trees[template]))
        self._key = key

    def sample(self, each: int, seed: int, kind: str | None = None) -> list[str]:
        """The same sentences as ever, drawn once."""
        path = places.cache() / f"sentences-{each}-{seed}-{kind or 'all'}.json"
        return kept(path, self._key, lambda: PhraseBook.sample(self, each, seed, kind), _strings)


def _key(model: str, instead: Instead) -> str:
    """A hash of all that the book is worked out from."""
    found = sha256(
        f"{model} {instead} {sys.version_info[:2]} {[(each, version(each)) for each in LIBRARIES]}".encode()
    )
    folder = files("voicecoach.phrasebook")
    for part in (folder, folder / "slips"):
        for file in sorted((each for each in part.iterdir() if each.is_file()), key=lambda file: file.name):
            found.update(f"{file.name} ".encode() + sha256(file.read_bytes()).digest())
    found.update(Path(__file__).read_bytes())
    return found.hexdigest()


def _read(model: str, instead: Instead) -> dict[str, Any]:
    """The book's sections, and the tree of every template in them, as plain data."""
    tree_of = importlib.import_module("voicecoach.phrasebook.templates").tree_of
    sections, trees = read(model, instead), dict[str, Any]()

    def noted(template: str) -> Node:
        found: Node = tree_of(template)
        trees[template] = written(found)
        return found

    PhraseBook(sections, noted)
    return {"sections": sections, "trees": trees}


def _strings(data: Any) -> list[str]:
    if not isinstance(data, list) or not all(isinstance(each, str) for each in data):
        raise TypeError("these are no sentences")
    return data
