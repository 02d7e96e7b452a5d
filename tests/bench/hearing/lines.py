"""What each voice of the bench says, with its exact meaning; the same lines for the same seed."""

from __future__ import annotations

import random
from importlib import resources
from typing import Any, Literal

import yaml

from voicecoach.value import Value

Part = Literal["tuning", "scored"]
_ONES = [
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
]
_TENS = ["zero", "ten", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
_NTH = ("first", "second", "third", "fourth")
_OWNERS = (("our", "ours", "ours"), ("their", "theirs", "theirs"), ("my", "mine", "ours"))


class Line(Value):
    """One thing to say, and what it means."""

    part: Part
    form: Literal["plain", "free", "everyday", "asked", "chatter"]
    text: str
    meaning: dict[str, Any] | None
    """Fields of the note, and how its distance was said; None for chatter."""


def lines(part: Part, notes: int, chatter: int, seed: int) -> list[Line]:
    """So many notes and stretches of chatter of one part."""
    book = yaml.safe_load((resources.files(__package__) / "templates.yaml").read_text(encoding="utf-8"))
    rng = random.Random(seed)
    templates = [one for one in book["notes"] if one["part"] == part]
    drawn = rng.choices(templates, [one["weight"] for one in templates], k=notes)
    talk = [
        Line(part=part, form="chatter", text=text, meaning=None)
        for text in _in_turn(book["chatter"][part], chatter, rng)
    ]
    return [_filled(template, rng) for template in drawn] + talk


def _in_turn(texts: list[str], count: int, rng: random.Random) -> list[str]:
    """As many as wanted, each text once before any comes again."""
    shuffled: list[str] = []
    while len(shuffled) < count:
        shuffled += rng.sample(texts, len(texts))
    return shuffled[:count]


def everyday(part: Part, section: Literal["notes", "asked"], count: int, seed: int) -> list[Line]:
    """So many loose notes, or questions, commands and settings, of one part; each template in turn."""
    book = yaml.safe_load((resources.files(__package__) / "everyday.yaml").read_text(encoding="utf-8"))
    rng = random.Random(seed)
    templates = [one for one in book[section] if one["part"] == part]
    form = "everyday" if section == "notes" else "asked"
    order: list[dict[str, Any]] = []
    while len(order) < count:
        order += rng.sample(templates, len(templates))
    return [_filled({**template, "form": form}, rng) for template in order[:count]]


def filled_text(say: str, rng: random.Random) -> str:
    """A wording with what is missing filled in by dice."""
    return _filled({"say": say, "part": "tuning", "form": "free"}, rng).text


_NOT_MEANT = frozenset({"part", "form", "weight", "say"})
"""What a template says of itself; the rest is what its note means."""


def _filled(template: dict[str, Any], rng: random.Random) -> Line:
    gap_text, gap_m = _gap(rng)
    hour = rng.randint(1, 12)
    number = rng.randint(1, 4)
    our, ours, side = rng.choices(_OWNERS, [9, 9, 2])[0]
    say = template["say"]
    text = say.format(our=our, ours=ours, nth=_NTH[number - 1], gap=gap_text, hour=_ONES[hour])
    meaning: dict[str, Any] = {key: template[key] for key in template if key not in _NOT_MEANT}
    if "{our}" in say or "{ours}" in say:
        meaning["side"] = side
    if "{nth}" in say:
        meaning["number"] = number
    if "{gap}" in say:
        meaning |= {"gap_m": gap_m, "gap_said": gap_text}
    if "{hour}" in say:
        meaning["hour"] = hour if "half past" not in say else (hour % 12) + 0.5
    return Line(part=template["part"], form=template["form"], text=text, meaning=meaning)


def _gap(rng: random.Random) -> tuple[str, float]:
    """A distance as people call them, and its metres by the units' definitions."""
    kind = rng.choices(("cm", "odd cm", "m", "m and half", "m cm", "ft", "ft in", "in", "yd"), _LIKELY)[0]
    one = rng.randint(1, 4)
    if kind == "cm":
        return _centimetres(rng.randrange(5, 100, 5))
    if kind == "odd cm":
        return _centimetres(rng.randint(11, 99))
    if kind == "m":
        return ("a metre", 1.0) if rng.random() < 0.2 else (_counted(one, "metre", "metres"), float(one))
    if kind == "m and half":
        return _and_a_half(rng.randint(0, 3))
    if kind == "m cm":
        tens = rng.randint(1, 9)
        return f"{_counted(one, 'metre', 'metres')} {_TENS[tens]}", one + tens / 10
    return _imperial(kind, one, rng)


_LIKELY = (35, 8, 22, 12, 6, 8, 3, 4, 2)


def _imperial(kind: str, one: int, rng: random.Random) -> tuple[str, float]:
    if kind == "ft":
        return _counted(one, "foot", "feet"), round(one * 0.3048, 4)
    if kind == "yd":
        return _counted(one, "yard", "yards"), round(one * 0.9144, 4)
    inches = rng.randint(1, 11)
    if kind == "ft in":
        return f"{_ONES[one]} foot {_ONES[inches]}", round(one * 0.3048 + inches * 0.0254, 4)
    return _counted(inches, "inch", "inches"), round(inches * 0.0254, 4)


def _centimetres(count: int) -> tuple[str, float]:
    return f"{number_words(count)} centimetres", count / 100


def _counted(count: int, one: str, many: str) -> str:
    return f"{_ONES[count]} {one if count == 1 else many}"


def _and_a_half(whole: int) -> tuple[str, float]:
    if whole == 0:
        return "half a metre", 0.5
    if whole == 1:
        return "a metre and a half", 1.5
    return f"{_ONES[whole]} and a half metres", whole + 0.5


def hour_words(hour: float) -> str:
    """An hour or half-hour as people answer with it."""
    whole = _ONES[int(hour) or 12]
    return f"{whole} o'clock" if hour == int(hour) else f"half past {whole}"


def number_words(count: int) -> str:
    """A number below a hundred in words."""
    teens = ["thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"]
    if count <= 12:
        return _ONES[count]
    if count < 20:
        return teens[count - 13]
    tens, ones = divmod(count, 10)
    return _TENS[tens] + (f" {_ONES[ones]}" if ones else "")
