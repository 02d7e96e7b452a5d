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
_PLACED = """
<um> = um | er | uh;
<opening> = <um> | okay | right then | well | so | now | right;
<who> = ( <rule_bowl_said> | <rule_owner_alone> | <rule_ordinal> [ bowl ] | <rule_owner> bowls
    | [ the ] jack [ has ] moved ) [ <rule_lies> | <um> | is | at | about | roughly | around
    | nearly ];
<far> = <rule_usual_gap> [ away | out | from the jack | away from the jack ] [ at | <um> ];
<where> = <rule_at_hour> | <rule_clock> | half past <rule_clock> | between <rule_neighbours> | <rule_way>
    | <rule_with_side> | <rule_depth_word> [ and <rule_side_word> ] | <rule_side_word>
    | ( short of | past | behind | beyond | in front of | to the left of | to the right of ) the jack;
<placed> = [ <opening> ] <who> ( <far> <where> | <where> <far> )
    | <far> <where> [ <who> ] | <where> <far> <who>;
"""
"""A bowl's name, distance and place in any order that the book has. Its orders one by one, each with its own
copy of every distance, took 31 times the length of the sound."""


def jsgf(book: PhraseBook, known: Container[str]) -> str:
    """All that the book's commands say, and bowls with their places, in words that the dictionary knows."""
    writer = _Writer(book, known)
    notes = writer.choice(["<placed>", *(writer.text(command.node) for command in book.commands)])
    rules = [f"<{_name(name)}> = {writer.text(rule)};" for name, rule in book.rules.items()]
    lists = [f"<{_name(name)}> = {writer.phrases(list(entries))};" for name, entries in book.lists.items()]
    return "\n".join(["#JSGF V1.0;", "grammar notes;", f"public <note> = {notes};", _PLACED, *rules, *lists])


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
