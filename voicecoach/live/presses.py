"""From the bytes of an input device to what is done: pure, so that recorded bytes can be tried.

Linux gives each event as a `struct input_event`: seconds, microseconds, type, code, value
(include/uapi/linux/input.h of Linux 6.1, read).
"""

from __future__ import annotations

import struct
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from voicecoach.live.button_keys import SILENCE

EVENT = struct.Struct("@llHHi")
_SYNC, _KEY = 0, 1
_DROPPED = 3
"""The kernel had more events than it could keep: which keys are down is no longer known."""
_UP, _DOWN = 0, 1
HELD_S = 0.35
"""Down for longer than this, a key was held down to talk; shorter, it was pressed, seconds."""


class Event(NamedTuple):
    """One event of an input device."""

    at_s: float
    kind: int
    code: int
    value: int


class Say(NamedTuple):
    """What the press stands for, in words, as if they were typed; `stop or go on` is not yet decided."""

    words: str


class Talk(NamedTuple):
    """The talk key went down, or up."""

    down: bool


Act = Say | Talk


class EventReader:
    """Cuts a stream of bytes into events; half an event waits for its other half."""

    def __init__(self) -> None:
        self._rest = b""

    def events(self, data: bytes) -> Iterator[Event]:
        """The events that are whole by now."""
        self._rest += data
        whole = len(self._rest) // EVENT.size * EVENT.size
        taken, self._rest = self._rest[:whole], self._rest[whole:]
        for seconds, micros, kind, code, value in EVENT.iter_unpack(taken):
            yield Event(seconds + micros / 1e6, kind, code, value)


class Presses:
    """What presses do.

    Args:
        table: The words that each key stands for, by its code.
        hold: True where the main button, held down, is the talk key.
    """

    def __init__(self, table: Mapping[int, str], *, hold: bool) -> None:
        self._table, self._hold = table, hold
        self._down_s: dict[int, float] = {}

    def take(self, event: Event) -> tuple[Act, ...]:
        """What is done because of this event. A key that repeats by itself does nothing more."""
        if event.kind == _SYNC and event.code == _DROPPED:
            return self.let_go()
        words = self._table.get(event.code)
        if event.kind != _KEY or words is None:
            return ()
        if not (self._hold and words == SILENCE):
            return (Say(words),) if event.value == _DOWN else ()
        if event.value == _DOWN:
            self._down_s[event.code] = event.at_s
            return (Talk(down=True),)
        return self._up(event) if event.value == _UP else ()

    def _up(self, event: Event) -> tuple[Act, ...]:
        since_s = self._down_s.pop(event.code, None)
        if since_s is None:
            return ()
        up: tuple[Act, ...] = (Talk(down=False),)
        return up if event.at_s - since_s > HELD_S else (*up, Say(SILENCE))

    def let_go(self) -> tuple[Act, ...]:
        """Nothing is known of the keys any more: what was held down is held no longer."""
        held = bool(self._down_s)
        self._down_s.clear()
        return (Talk(down=False),) if held else ()


def spoken(words: str, *, speaking: bool) -> str:
    """The words to take; the main button's hang on whether the voice is speaking."""
    if words != SILENCE:
        return words
    return "stop" if speaking else "go on"
