"""What each template of a phrase book can begin with: worked out once, so that reading a line is quick."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from voicecoach.hear.values import UNKNOWN
from voicecoach.phrasebook.book import Command, PhraseBook
from voicecoach.phrasebook.grammar import Choice, Literal, Node, Reference
from voicecoach.phrasebook.grammar import Sequence as Parts

Entry = tuple[tuple[str, ...], Any]
NUMBERS = ("th", "teen", "ty", "dozen", "thousand")
TURNS = frozenset({"minus", "percent"})
"""Strange words that turn a figure into another."""
NOTHING: frozenset[str] = frozenset()


class Index:
    """Which templates to try at a word."""

    def __init__(self, book: PhraseBook) -> None:
        self.book = book
        self.sound = book.spelling.sound
        self._entries = {name: self._by_first(entries) for name, entries in book.lists.items()}
        self._starts: dict[int, tuple[frozenset[str], bool]] = {}
        self._parts: dict[tuple[str, str], list[str]] = {}
        self._commands: dict[str, list[Command]] = {}
        self._readable = frozenset(self.sound(word) for word in book.readable)
        self._telling = frozenset(self.sound(word) for word in book.telling)
        self._turning = frozenset(self.sound(word) for word in book.never_passed_over)
        for command in book.commands:
            for sound in self._begins(command.node)[0]:
                self._commands.setdefault(sound, []).append(command)

    def is_odd(self, sound: str) -> bool:
        """True for a word that the book doesn't have; what may change a number, or the rest, is never one."""
        changes = len(sound) == 1 or sound in TURNS or sound.endswith(NUMBERS)  # "1e9" has an "e"
        known = sound in self._readable or sound in self._turning or sound == UNKNOWN
        return not known and not changes

    def is_passed_over(self, sound: str) -> bool:
        """True for an odd word, and for one of the book's that says nothing in a note."""
        return self.is_odd(sound) or (sound in self._readable and sound not in self._telling)

    def entries(self, name: str, sound: str) -> list[Entry]:
        """The entries of a list that begin with this sound."""
        return self._entries[name].get(sound, [])

    def commands(self, sound: str) -> list[Command]:
        """The book's whole sentences that can begin with this sound."""
        return self._commands.get(sound, [])

    def parts(self, bag: str, sound: str) -> list[str]:
        """The parts of a bag that can begin with this sound."""
        key = (bag, sound)
        if key not in self._parts:
            self._parts[key] = [
                name for name in self.book.bags[bag] if sound in self._begins(self.book.parts[name])[0]
            ]
        return self._parts[key]

    def may_begin(self, node: Node, sound: str) -> bool:
        """True when a node can begin with this sound or be empty."""
        sounds, empty = self._begins(node)
        return empty or sound in sounds

    def _by_first(self, entries: Any) -> dict[str, list[Entry]]:
        first: dict[str, list[Entry]] = {}
        for phrase, value in entries.items():
            words = tuple(phrase.split())
            first.setdefault(self.sound(words[0]), []).append((words, value))
        return first

    def _begins(self, node: Node) -> tuple[frozenset[str], bool]:
        """The sounds that a node can begin with, and whether it may be empty."""
        if id(node) not in self._starts:
            self._starts[id(node)] = self._find_begins(node)
        return self._starts[id(node)]

    def _find_begins(self, node: Node) -> tuple[frozenset[str], bool]:
        if isinstance(node, Literal):
            return frozenset({self.sound(node.word)}), False
        if isinstance(node, Reference):
            rule = self.book.rules.get(node.name)
            return self._begins(rule) if rule else (frozenset(self._entries[node.name]), False)
        if isinstance(node, Choice):
            options = [self._begins(item) for item in node.items]
            return NOTHING.union(*(sounds for sounds, _ in options)), any(empty for _, empty in options)
        return self._sequence_begins(node.items if isinstance(node, Parts) else ())

    def _sequence_begins(self, items: Sequence[Node]) -> tuple[frozenset[str], bool]:
        found = NOTHING
        for item in items:
            sounds, empty = self._begins(item)
            found |= sounds
            if not empty:
                return found, False
        return found, True
