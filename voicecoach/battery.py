"""The device's battery: what psutil gives as a value, and when a low one is said.

A battery can't be had everywhere, and neither can each of its figures: a desk computer has none, and many
small ones know how full it is but not how long it lasts.
"""

from __future__ import annotations

from typing import Any

import psutil

from voicecoach.describe.values import Battery
from voicecoach.value import Value

LOW = (20, 10, 5)
"""At how many per cent a battery is told to be low."""
AGAIN = 5
"""After how many per cent more than that it is told anew: it was charged meanwhile."""


def read() -> Battery | None:
    """The battery now; None where the system has none, or tells nothing of it."""
    try:
        return battery(psutil.sensors_battery())
    except (AttributeError, OSError, NotImplementedError, ValueError):
        return None  # this system has no such call, or its files say something that psutil can't read


def battery(given: Any) -> Battery | None:
    """What psutil gives, as a value.

    Args:
        given: The result of `psutil.sensors_battery()`: `percent` 0 to 100, `secsleft` in seconds or one of
            its two negative marks, `power_plugged` True, False or None; None where there is no battery.
    """
    if given is None or given.percent is None or not 0 <= given.percent <= 101:
        return None
    plugged, left = bool(given.power_plugged), given.secsleft
    known = left is not None and left > 0 and not plugged
    return Battery(
        percent=min(100, round(given.percent)), charging=plugged, left_s=float(left) if known else None
    )


class Told(Value):
    """Which of the low levels were told already."""

    level: int | None = None
    """The lowest of them, per cent; None where none was told since the battery was charged."""


def low(told: Told, now: Battery | None) -> tuple[int | None, Told]:
    """Whether a low battery is to be told now.

    Args:
        told: What was told already.
        now: The battery; None where there is none.

    Returns:
        The percentage to tell; None to say nothing. And what has been told once that is said.
    """
    if now is None:
        return None, told
    if now.charging or (told.level is not None and now.percent > told.level + AGAIN):
        return None, Told()
    reached = [level for level in LOW if now.percent <= level]
    if not reached or (told.level is not None and reached[-1] >= told.level):
        return None, told
    return now.percent, Told(level=reached[-1])
