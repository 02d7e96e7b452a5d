"""Which of the system's input devices has the buttons, by the kernel's own list of them."""

from __future__ import annotations

import re
import struct
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from voicecoach.live.button_keys import MEDIA

LIST = Path("/proc/bus/input/devices")
LETTERS = frozenset((*range(16, 26), *range(30, 39), *range(44, 51)))
"""Q to P, A to L and Z to M (input-event-codes.h, read): what has all of them is a keyboard."""
_WORD_BITS = 8 * struct.calcsize("l")
_NODE = re.compile(r"\b(event\d+)\b")


class ButtonDevice(NamedTuple):
    """An input device with keys."""

    name: str
    node: str
    """Its file's name in /dev/input."""
    keys: frozenset[int]
    """The codes of its keys."""

    @property
    def is_keyboard(self) -> bool:
        """True for what people type on, and for clickers that call themselves one."""
        return self.keys >= LETTERS


def there(named: str | None, listing: Path = LIST) -> tuple[ButtonDevice, ...]:
    """The devices whose buttons would be taken now; none where the system has no such list."""
    try:
        return chosen(listed(listing.read_text(encoding="utf-8", errors="replace")), named)
    except OSError:
        return ()


def listed(text: str) -> Iterator[ButtonDevice]:
    """The devices with keys in the kernel's list: a paragraph each, with its name, its nodes and its keys.

    A key is a bit of the number after `KEY=`, which is written in words of the machine's own length, the
    highest first (drivers/input/input.c, `input_seq_print_bitmap`, from memory).
    """
    for paragraph in text.split("\n\n"):
        lines = dict(re.findall(r"^([A-Z]): (.*?)$", paragraph, re.MULTILINE))
        name = re.search(r'^N: Name="(.*)"$', paragraph, re.MULTILINE)
        node = _NODE.search(lines.get("H", ""))
        bits = re.search(r"^B: KEY=([0-9a-f ]+)$", paragraph, re.MULTILINE)
        if name and node and bits:
            yield ButtonDevice(name[1] or "a button without a name", node[1], frozenset(_bits(bits[1])))


def _bits(text: str) -> Iterator[int]:
    for at, word in enumerate(reversed(text.split())):
        value = int(word, 16)
        yield from (at * _WORD_BITS + bit for bit in range(value.bit_length()) if value >> bit & 1)


def chosen(devices: Iterator[ButtonDevice], named: str | None) -> tuple[ButtonDevice, ...]:
    """The devices whose buttons are taken.

    Args:
        devices: Those that there are.
        named: A part of the name of the one that the profile names. Where it names none, whatever has an
            earpiece's button and isn't a keyboard.
    """
    found = tuple(devices)
    if named is not None:
        return tuple(each for each in found if named.casefold() in each.name.casefold())
    return tuple(each for each in found if each.keys & MEDIA and not each.is_keyboard)
