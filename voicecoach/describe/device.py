"""The time of day and the battery, in words."""

from __future__ import annotations

import re

from voicecoach.describe.values import Battery, Sentence, Sentences
from voicecoach.phrasebook.numbers import cardinal, spoken
from voicecoach.phrasebook.wording import sentence, words

HOUR_S = 3_600
_TIME = re.compile(r"T(\d\d):(\d\d)")


def time_of_day(at: str) -> Sentences:
    """The time as people say it on a clock of twelve hours.

    Args:
        at: The time of day, ISO 8601, on the clock of the place.
    """
    found = _TIME.search(at)
    if found is None:
        return _one("answer.nothing.time")
    return _one("answer.time", time=_clock(int(found[1]), int(found[2])))


def battery(now: Battery | None) -> Sentences:
    """How full the battery is, and how long it lasts where the system knows that; None for no battery."""
    if now is None:
        return _one("answer.nothing.battery")
    share = words("battery.share", count=cardinal(now.percent))
    if now.charging:
        return _one("answer.battery charging", share=share)
    if now.left_s is None:
        return _one("answer.battery", share=share)
    return _one("answer.battery lasts", share=share, length=_length(now.left_s))


def battery_low(percent: int) -> Sentences:
    """What is said unasked when the battery has fallen to so many per cent."""
    return _one("battery.low", share=words("battery.share", count=cardinal(percent)))


def _clock(hour: int, minute: int) -> str:
    to_next = minute > 30
    named = cardinal((hour + to_next - 1) % 12 + 1)
    minutes = 60 - minute if to_next else minute
    if not minute:
        return words("clock.on the hour", hour=named)
    if minute in (15, 30, 45):
        return words(f"clock.{minute}", hour=named)
    unit = words("clock.minute.one" if minutes == 1 else "clock.minute.many")
    if minutes % 5 == 0:
        unit = ""
    key = "clock.to" if to_next else "clock.past"
    return " ".join(words(key, minutes=f"{cardinal(minutes)} {unit}", hour=named).split())


def _length(seconds: float) -> str:
    """To half an hour, and to ten minutes below an hour: more isn't known of a battery."""
    if seconds < HOUR_S:
        minutes = max(10, round(seconds / 600) * 10)
        if minutes < 60:
            return words("battery.minutes", count=cardinal(minutes))
    halves = max(2, round(2 * seconds / HOUR_S))
    return words("battery.hour" if halves == 2 else "battery.hours", count=spoken(halves / 2))


def _one(key: str, **slots: str) -> Sentences:
    return (Sentence(text=sentence(key, **slots)),)
