"""What may stand in a printed line: no sign that moves the cursor or reverses the line."""

import unicodedata

import click

_KEPT = "\n\a"
"""Line ends, and the bell that asks for attention."""
_TURNING = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
"""Signs that change the direction in which what follows is shown (Unicode Standard Annex 9; memory)."""
_NO_TEXT = frozenset({"Cc", "Cs", "Zl", "Zp"})


def put(text: str, *, err: bool = False) -> None:
    """Print a line, or several, and flush them."""
    click.echo(plain(text), err=err)


def plain(text: str) -> str:
    """The text with a question mark for each sign that would do something other than be read."""
    if text.isprintable():
        return text
    return "".join("?" if _acts(sign) else sign for sign in text.replace("\t", " "))


def plain_json(text: str) -> str:
    """The same for a line of JSON, where such signs are written as escapes, so that nothing is lost."""
    if text.isprintable():
        return text
    return "".join(f"\\u{ord(sign):04x}" if _acts(sign) else sign for sign in text)


def _acts(sign: str) -> bool:
    return sign not in _KEPT and (sign in _TURNING or unicodedata.category(sign) in _NO_TEXT)
