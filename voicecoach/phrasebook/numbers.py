"""Numbers in words, as a person would say them: no digits, no hyphens. Their one home.

The words are `wording.yaml`'s; the lists of `numbers.yaml` read each of them back.
"""

import re

from voicecoach.phrasebook.wording import listed, words

_TEENS_END = 20
_LAST_ORDINAL = 20


def cardinal(number: int) -> str:
    """A whole number from 0 to 999 999 in words."""
    if number < _TEENS_END:
        return listed("numbers.small")[number]
    if number < 100:
        tens, rest = divmod(number, 10)
        return _joined(listed("numbers.tens")[tens - 2], rest, "numbers.tens and ones")
    if number < 1000:
        hundreds, rest = divmod(number, 100)
        return _joined(words("numbers.hundred", count=cardinal(hundreds)), rest, "numbers.hundreds and rest")
    thousands, rest = divmod(number, 1000)
    return _joined(words("numbers.thousand", count=cardinal(thousands)), rest, "numbers.thousands and rest")


def ordinal(number: int) -> str:
    """`first` to `twentieth`; beyond them `number twenty one`."""
    if number <= _LAST_ORDINAL:
        return listed("numbers.ordinals")[number - 1]
    return words("numbers.beyond ordinals", number=cardinal(number))


def spoken(number: float) -> str:
    """Any number up to a tenth: `two`, `two and a half`, `two point three`."""
    tenths = round(number * 10)
    whole, rest = divmod(tenths, 10)
    if rest == 0:
        return cardinal(whole)
    if rest == 5 and whole:
        return words("numbers.and a half", whole=cardinal(whole))
    return words("numbers.point", whole=cardinal(whole), tenths=cardinal(rest))


def metres(value: float) -> str:
    """A figure in metres as a law has it, to the centimetre: `twenty two point five metres`."""
    unit = words("units.metre.one" if abs(value - 1) < 0.005 else "units.metre.many")
    return words("distance.counted", count=figure(f"{value:.2f}".rstrip("0").rstrip(".")), unit=unit)


def millimetres(value: float) -> str:
    """A size in words, to the millimetre."""
    return words("distance.counted", count=cardinal(round(value)), unit=words("units.millimetre.many"))


def figure(digits: str) -> str:
    """A figure in words, its decimals one by one: `two point zero five` for `2.05`."""
    whole, _, decimals = digits.partition(".")
    start = _or_zero(int(whole or 0))
    if not decimals:
        return start
    return words("numbers.decimals", whole=start, decimals=" ".join(_or_zero(int(one)) for one in decimals))


def _or_zero(number: int) -> str:
    return cardinal(number) if number else words("numbers.zero")


def without_digits(text: str) -> str:
    """The text with every figure in words, for sentences that come from other stages."""
    return re.sub(r"\d+(?:\.\d+)*", _figure, text)


def _figure(found: re.Match[str]) -> str:
    """A figure, or a law's number with its points, in words."""
    return words("numbers.point word").join(cardinal(int(part)) for part in found.group().split("."))


def _joined(start: str, rest: int, key: str) -> str:
    return words(key, start=start, rest=cardinal(rest)) if rest else start
