"""The keys that a button, clicker, pedal or keypad can have, by name, and what each press stands for.

The codes are Linux's own (include/uapi/linux/input-event-codes.h of Linux 6.1, read).
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from voicecoach.errors import DataProblem

SILENCE = "stop or go on"
"""What the main button does: it silences the voice, or lets it go on. Held down, it is the talk key."""
NOTHING = "nothing"

KEYS: Mapping[str, int] = MappingProxyType(
    {
        "play": 207,
        "pause": 119,
        "play pause": 164,
        "play disc": 200,
        "pause disc": 201,
        "stop": 166,
        "next": 163,
        "previous": 165,
        "forward": 208,
        "rewind": 168,
        "volume up": 115,
        "volume down": 114,
        "mute": 113,
        "media": 226,
        "phone": 169,
        "headset": 0x246,
        "camera": 212,
        "page up": 104,
        "page down": 109,
        "up": 103,
        "down": 108,
        "left": 105,
        "right": 106,
        "home": 102,
        "end": 107,
        "enter": 28,
        "space": 57,
        "escape": 1,
        "tab": 15,
        "rub out": 14,
        "a": 30,
        "b": 48,
        "c": 46,
        "full stop": 52,
        "f5": 63,
        "0": 82,
        "1": 79,
        "2": 80,
        "3": 81,
        "4": 75,
        "5": 76,
        "6": 77,
        "7": 71,
        "8": 72,
        "9": 73,
        "pad enter": 96,
        "plus": 78,
        "minus": 74,
        "times": 55,
        "divide": 98,
        "pad point": 83,
        "button": 0x100,
        "button one": 0x101,
        "button two": 0x102,
        "left click": 0x110,
        "right click": 0x111,
        "middle click": 0x112,
    }
)
"""The codes of keys; 0 to 9 are a keypad's."""

MEDIA = frozenset(KEYS[name] for name in ("play", "pause", "play pause", "play disc", "pause disc", "media"))
"""What an earpiece's own button gives, in one make or another."""
USUAL: Mapping[str, str] = MappingProxyType(
    {
        **dict.fromkeys(
            ("play", "pause", "play pause", "play disc", "pause disc", "stop", "media", "phone", "headset"),
            SILENCE,
        ),
        **dict.fromkeys(
            ("page up", "page down", "enter", "pad enter", "space", "a", "b", "c", "button"), SILENCE
        ),
        "next": "next",
        "previous": "say it again",
    }
)
"""What a press does where the profile says nothing else: its words are taken as if they were typed."""


def table(chosen: Mapping[str, str] | None = None) -> dict[int, str]:
    """What each key does, by its code.

    Args:
        chosen: What the profile says, by the key's name; `nothing` takes a key's usual meaning away.

    Raises:
        DataProblem: The profile names a key that there isn't.
    """
    unknown = sorted(set(chosen or {}) - set(KEYS))
    if unknown:
        raise DataProblem(
            f"The profile has a button {unknown[0]!r}, and there is none of that name. Put that right. "
            f"There are: {', '.join(KEYS)}."
        )
    does = {**USUAL, **(chosen or {})}
    return {KEYS[name]: words for name, words in does.items() if words != NOTHING}
