"""A stranger's parser, written only for the tests, from what the guide tells a listener.

"Each bowl is one sentence: whose and which, how far from the jack, on which hour. The hour may come
first. A word for the side may follow the hour. Distances are in centimetres, metres and centimetres
('one metre twenty'), halves ('one and a half metres'), inches, feet and inches, or yards. In the terse list
'eighty' is centimetres, 'one twenty' is a metre twenty, and the last number is the hour. 'About two' and
'between four and five' (in long lists 'four or five') say that the hour is in doubt."

Nothing of the program is imported here.
"""

import re
from typing import NamedTuple

_SMALL = ["nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven"]
_SMALL += ["twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"]
_TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
_ORDINALS = ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth"]
_VALUES = {word: value for value, word in enumerate(_SMALL)}
_VALUES |= {word: 10 * value for value, word in enumerate(_TENS, 2)} | {"a": 1, "oh": 0}
_SIDE_WORDS = {"short", "past", "left", "right"}
_UNITS = {
    "centimetre": 0.01,
    "metre": 1.0,
    "inch": 0.0254,
    "inches": 0.0254,
    "foot": 0.3048,
    "feet": 0.3048,
    "yard": 0.9144,
}


class Told(NamedTuple):
    """What a listener knows after one sentence."""

    side: str
    number: int
    gap_m: float
    hours: tuple[float, ...]
    """One hour, or the two it lies between."""
    side_words: frozenset[str]
    doubt: str
    in_ditch: bool


def hear(text: str) -> Told | None:
    """The bowl that a sentence tells of; None for the jack."""
    if text.startswith(("The jack", "Jack")):
        return None
    whose, which, rest = text.rstrip(".").replace(":", ",").split(maxsplit=2)
    which = which.rstrip(",")
    parts = rest.split(", ")
    sides = [part for part in parts if set(part.split()) <= _SIDE_WORDS | {"and"}]
    parts = [part for part in parts if part not in sides and part != "in the ditch"]
    hour = next(
        (part for part in parts if "o'clock" in part or part.startswith(("half past", "about", "between"))),
        parts[-1],
    )
    (distance,) = (part for part in parts if part is not hour)
    return Told(
        side={"Our": "ours", "Your": "ours", "Their": "theirs"}[whose],
        number=_ORDINALS.index(which) + 1,
        gap_m=metres(distance),
        hours=_hours(hour),
        side_words=frozenset(word for part in sides for word in part.split()) - {"and"},
        doubt="between" if " or " in hour else hour.split()[0] if hour[0] in "ab" else "plain",
        in_ditch="in the ditch" in rest,
    )


def metres(text: str) -> float:
    """A distance in words, metres."""
    if text in ("touching", "nearly touching"):
        return 0.0
    pieces = re.findall(r"(.+?) (centimetre|metre|inch|inches|foot|feet|yard)s?(?: |$)|(.+)$", text)
    total, last = 0.0, 0.0
    for counted, unit, bare in pieces:
        if unit:
            last = _UNITS[unit]
            total += _count(counted) * last
        else:
            total += _bare(bare, after_metres=last == 1.0)
    return total


def _bare(text: str, after_metres: bool) -> float:
    """Centimetres with no unit: after "one metre", or in the terse list "eighty" and "one twenty"."""
    words = text.split()
    if not after_metres and len(words) > 1 and words[0] in _SMALL:
        return _VALUES[words[0]] + _count(" ".join(words[1:])) / 100
    return _count(text) / 100


def _count(text: str) -> float:
    if text == "half a":
        return 0.5
    whole, _, half = text.partition(" and a half")
    if " point " in whole:
        before, after = whole.split(" point ")
        return _count(before) + _count(after) / 10
    return float(sum(_VALUES[word] for word in whole.split())) + (
        0.5 if half or text.endswith("half") else 0.0
    )


def _hours(text: str) -> tuple[float, ...]:
    text = text.removeprefix("about ").removesuffix(" o'clock")
    if "between " in text or " or " in text:
        first, second = re.split(" and | or ", text.removeprefix("between "))
        return (float(_VALUES[first]), float(_VALUES[second]))
    if text.startswith("half past "):
        return (_VALUES[text.removeprefix("half past ")] % 12 + 0.5,)
    return (float(_VALUES[text]),)
