"""Plain words for the head's own questions and refusals: names, numbers, laws."""

from voicecoach.understand.values import BowlName

_SMALL = (
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
)
_TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_ORDINALS = (
    "first",
    "second",
    "third",
    "fourth",
    "fifth",
    "sixth",
    "seventh",
    "eighth",
    "ninth",
    "tenth",
    "eleventh",
    "twelfth",
    "thirteenth",
    "fourteenth",
    "fifteenth",
    "sixteenth",
    "seventeenth",
    "eighteenth",
    "nineteenth",
    "twentieth",
)


def number(value: int) -> str:
    """A whole number in words."""
    if value < 0:
        return "minus " + number(-value)
    if value < 20:
        return _SMALL[value]
    if value < 100:
        return " ".join(filter(None, (_TENS[value // 10], _SMALL[value % 10] if value % 10 else "")))
    rest = value % 100
    return number(value // 100) + " hundred" + (" and " + number(rest) if rest else "")


def decimal(value: float) -> str:
    """A figure to the centimetre in words, its decimals spoken one by one."""
    whole, _, part = f"{value:.2f}".partition(".")
    digits = part.rstrip("0")
    return number(int(whole)) + ("" if not digits else " point " + " ".join(_SMALL[int(d)] for d in digits))


def metres(value: float) -> str:
    """A distance in words, to the centimetre."""
    return decimal(value) + (" metre" if abs(value - 1) < 0.005 else " metres")


def millimetres(value: float) -> str:
    """A size in words, to the millimetre."""
    return number(round(value)) + " millimetres"


def shots(count: int) -> str:
    """A count of shots."""
    return number(count) + (" shot" if count == 1 else " shots")


def bowl(name: BowlName) -> str:
    """A bowl's name as the subject of a sentence within one: `our second`, `their first`."""
    return ("our " if name.side == "ours" else "their ") + ordinal(name.number)


def ordinal(value: int) -> str:
    """`first`, `second`; past the twentieth `number twenty one`."""
    return _ORDINALS[value - 1] if 1 <= value <= len(_ORDINALS) else "number " + number(value)


def hour(value: float) -> str:
    """An hour or a half-hour as it is said."""
    whole = int(value) or 12
    return f"half past {number(whole)}" if value % 1 else f"{number(whole)} o'clock"


def law(reference: str) -> str:
    """A law's number as it is read out: `law ten point one point three`."""
    return "law " + " point ".join(number(int(part)) for part in reference.split("."))


def sentence(text: str) -> str:
    """The same text with a capital letter first."""
    return text[:1].upper() + text[1:]
