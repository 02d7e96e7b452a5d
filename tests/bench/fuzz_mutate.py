"""Damage by dice: words, text and bytes, each from one seed."""

from __future__ import annotations

import random
from pathlib import Path

ODD = (
    "\x1b[2J\x1b[H",
    "\x07\x08\x0d\x0b\x0c",
    "\x9b31m",
    "\u202eevil\u202c",
    "\u2066\u2069",
    "\u05e9\u05dc\u05d5\u05dd",
    "\u0645\u0631\u062d\u0628\u0627",
    "\U0001f3c6\U0001f469\u200d\U0001f9af",
    "\ufeff",
    "\u0000",
    "\ud800",
    "\u2028\u2029",
    "<script>alert(1)</script>",
    "<speak><break time='9s'/></speak>",
    "[[volm 0]]",
    "{{7*7}}",
    "%s%n%x",
    "$(touch pwned)",
    "`touch pwned`",
    "; rm -rf /",
    "../../../etc/passwd",
    "..\\..\\",
    "/dev/zero",
    "file:///etc/passwd",
    "=1+1",
    "\u0661\u0662",
    "\u00b2",
    "\u2460",
    "\u0130",
    "9" * 5000,
    "0." + "1" * 300,
    "a" * 3000,
    "-0",
    "1e308",
    "nan",
    "true",
    "null",
)
"""Text that has troubled other programs: cursor moves, turned lines, markup, paths, long figures."""


def words(lines: list[str], dice: random.Random) -> str:
    """A line made of others: words dropped, doubled, swapped, put in, run together, or spelled wrong."""
    said = dice.choice(lines).split()
    for _ in range(dice.choice((0, 0, 1, 1, 2, 3, 8))):
        said = _changed(said, lines, dice)
    return " ".join(said)


def _changed(said: list[str], lines: list[str], dice: random.Random) -> list[str]:
    at = dice.randrange(len(said) + 1)
    other = dice.choice(lines).split() or ["a"]
    before, after = said[:at], said[at:]
    return dice.choice(
        (
            [*before, *after[1:]],
            [*before, *before[-2:], *after],
            [*after, *before],
            [*before, dice.choice(other), *after],
            [*before, *other],
            [*before, dice.choice(ODD), *after],
            text(" ".join(said), dice).split(),
        )
    )


def text(original: str, dice: random.Random) -> str:
    """The text with a few places changed: signs dropped, doubled, put in, odd text and other parts of it."""
    for _ in range(dice.choice((1, 1, 1, 2, 4))):
        at = dice.randrange(len(original) + 1)
        until = min(len(original), at + dice.choice((0, 1, 1, 2, 5, 40)))
        put = dice.choice(
            (
                "",
                str(dice.randrange(-9, 100)),
                dice.choice("0123456789.-"),
                original[at:until] * 2,
                chr(dice.randrange(0x2500)),
                dice.choice(ODD),
                dice.choice(":-[]{}&*!|>'\"%@`#,?\n\t "),
                original[: dice.randrange(len(original) + 1)],
            )
        )
        original = original[:at] + put + original[until:]
    return original[:200_000]


def data(original: bytes, dice: random.Random, header: int = 64) -> bytes:
    """The bytes with a few changed, most of them in the header, or cut off, or with a piece twice."""
    changed = bytearray(original)
    for _ in range(dice.choice((1, 1, 2, 4, 16))):
        if not changed:
            break
        at = dice.randrange(min(header, len(changed)) if dice.random() < 0.8 else len(changed))
        way = dice.randrange(5)
        if way == 0:
            changed[at] ^= 1 << dice.randrange(8)
        elif way == 1:
            changed[at] = dice.choice((0, 1, 0x7F, 0x80, 0xFF, dice.randrange(256)))
        elif way == 2:
            changed[at : at + 4] = dice.choice((b"\xff\xff\xff\xff", b"\xff\xff\xff\x7f", b"\0\0\0\0"))
        elif way == 3:
            del changed[at if dice.random() < 0.5 else dice.randrange(len(changed)) :]
        else:
            changed[at:at] = changed[: dice.randrange(64)]
    return bytes(changed)


def written_anew(path: Path, content: bytes) -> None:
    """Write a file that wasn't there: to empty one and write it again waits for the disk."""
    path.unlink(missing_ok=True)
    path.write_bytes(content)
