"""The phrase book's bowl notes and commands as a JSGF grammar, for pocketsphinx."""

from __future__ import annotations

from collections.abc import Container

from voicecoach.phrasebook.book import PhraseBook
from voicecoach.phrasebook.grammar import Choice, Literal, Node, Reference, Sequence

_UNITS = {
    "metre": "( meter | meters )",
    "centimetre": "( centimeter | centimeters )",
    "millimetre": "( millimeter | millimeters )",
    "yard": "( yard | yards )",
    "foot": "( foot | feet )",
    "inch": "( inch | inches )",
}
"""Its dictionary has the American spellings only."""
_NOTHING = "<NULL>"
_NEVER = "<VOID>"


def jsgf(book: PhraseBook, known: Container[str]) -> str:
    """All that the book's orders and commands say, in words that the dictionary knows."""
    writer = _Writer(book, known)
    nodes = [order.node for order in book.orders] + [command.node for command in book.commands]
    notes = writer.choice([writer.text(node) for node in nodes])
    rules = [f"<{_name(name)}> = {writer.text(rule)};" for name, rule in book.rules.items()]
    lists = [f"<{_name(name)}> = {writer.phrases(list(entries))};" for name, entries in book.lists.items()]
    return "\n".join(["#JSGF V1.0;", "grammar notes;", f"public <note> = {notes};", *rules, *lists])


class _Writer:
    def __init__(self, book: PhraseBook, known: Container[str]) -> None:
        self._book = book
        self._known = known

    def text(self, node: Node) -> str:
        if isinstance(node, Literal):
            return self._word(node.word)
        if isinstance(node, Reference):
            return f"<{_name(node.name)}>"
        if isinstance(node, Choice):
            return self.choice([self.text(item) for item in node.items])
        if isinstance(node, Sequence):
            parts = [self.text(item) for item in node.items]
            return " ".join(part for part in parts if part != _NOTHING) or _NOTHING
        return _NOTHING

    def choice(self, options: list[str]) -> str:
        """One of them; what can't be said is left out."""
        said = [option for option in dict.fromkeys(options) if _NEVER not in option.split()]
        return f"( {' | '.join(said)} )" if said else _NEVER

    def phrases(self, entries: list[str]) -> str:
        return self.choice([" ".join(self._word(word) for word in entry.split()) for entry in entries])

    def _word(self, word: str) -> str:
        unit = self._book.spelling.canonical(word)
        if unit in _UNITS:
            return _UNITS[unit]
        heard = self._book.spelling.heard.get(word, word)
        return heard if all(part in self._known for part in heard.split()) else _NEVER


def _name(name: str) -> str:
    return "rule_" + "".join(letter if letter.isalnum() else "_" for letter in name)
