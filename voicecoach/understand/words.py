"""From a typed or heard line to the words of the phrase book."""

from __future__ import annotations

import re

from voicecoach.phrasebook.book import PhraseBook
from voicecoach.phrasebook.numbers import cardinal, figure, ordinal

MOST_DIGITS = 3
"""Whole numbers are read up to nine hundred and ninety nine."""
_UNITS = {
    "m": "metre",
    "cm": "centimetre",
    "cms": "centimetre",
    "mm": "millimetre",
    "yd": "yard",
    "yds": "yard",
    "ft": "foot",
    "in": "inch",
    "ins": "inch",
    "'": "foot",
    '"': "inch",
}
_ORDINAL = re.compile(r"\b(\d)(?:st|nd|rd|th)\b")
_CLOCK = re.compile(r"\b(\d{1,2}):30\b(?:\s*o'?clock)?")
_UNIT = re.compile(r"(\d)\s*(cms?|mm?|yds?|ft|ins?|'|\")(?![a-z])")
_HALFWAY = re.compile(r"\bhalf way\b")
_OCLOCK = re.compile(r"\bo'? ?clock\b")
_MINUS = re.compile(r"(?<![\w.])-(?=[\d.])")
_IS = re.compile(
    r"\b(first|second|third|fourth|fifth|sixth|seventh|eighth|ninth|one|mine|wood|end|score|tape"
    r"|far|away|long|close|near|wide|short|white|length)'s\b"
    r"(?! (?:first|second|third|fourth|last|bowl|wood|width)\b)"  # "our third's second" is a player's
)
_PLURAL = re.compile(
    r"\b((?:ours?|theirs?|my|your) (?:first|second|third|fourth|fifth|sixth|seventh|eighth|one)"
    r"|(?:that|this|the last|last) one|(?:^|(?<=the ))jack)s\b"
    r"(?! (?:first|second|third|fourth|last|bowl|wood|width|left|to go)\b)"
)
"""What sounds like "second's", "one's" and "jack's", as the ear writes it."""
_ENDS = re.compile(
    r"(?:^|(?<=the )|(?<=that ))ends (?=(?:a|dead|tied|over|finished|burnt|killed|been|done|level)\b)"
)
_BOWL = re.compile(r"\b(bowl|wood)'?s (?=(?:been|gone|got|now|come)\b)")
_NUMBER = re.compile(r"\d+(?:\.\d+)?|\.\d+")
_WORD = re.compile(r"\[unk\]|[a-z]+(?:'[a-z]+)?")


class Writer:
    """Writes lines in the book's own words: figures spelled out, one spelling for each word."""

    def __init__(self, book: PhraseBook) -> None:
        self._spelling = book.spelling
        self._hesitations = frozenset(book.fillers["anywhere"])

    def words(self, line: str) -> list[str]:
        """The line's words; figures become number words, heard forms the words they stand for."""
        text = line.lower().replace("\u2019", "'")
        text = _MINUS.sub("minus ", text).replace("-", " ").replace("%", " percent ")
        if any(letter.isdigit() for letter in text):
            text = self._spelled(text)
        text = _ENDS.sub("end is ", _PLURAL.sub(r"\1 is", _IS.sub(r"\1 is", text)))
        text = _BOWL.sub(r"\1 is ", text)
        text = _HALFWAY.sub("halfway", text)
        text = _OCLOCK.sub("o'clock", text)
        said = (self._spelling.canonical(word) for word in _WORD.findall(self._spelling.written(text)))
        return [word for word in said if word not in self._hesitations]

    def _spelled(self, text: str) -> str:
        """The text with its figures in words: "2nd", "1.2", "80cm", "4:30"."""
        text = _CLOCK.sub(r" half past \1 ", text)
        text = _ORDINAL.sub(lambda found: f" {ordinal(int(found[1]))} " if int(found[1]) else found[0], text)
        text = _UNIT.sub(lambda found: f"{found[1]} {_UNITS[found[2]]} ", text)
        return _NUMBER.sub(lambda found: f" {self.number(found[0])} ", text)

    def number(self, digits: str) -> str:
        """A figure in words; its decimals digit by digit. A thousand and more has no word in the book."""
        whole, point, decimals = digits.partition(".")
        whole = whole.lstrip("0") or "0"
        if len(whole) > MOST_DIGITS:
            return " ".join(["[unk]", *figure(f".{decimals}").split()[1:]]) if decimals else "[unk]"
        return figure(f"{whole}{point if decimals else ''}{decimals}")

    def whole(self, number: int) -> str:
        """A whole number in words."""
        return cardinal(number)
