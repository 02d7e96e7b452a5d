"""Hours in words, and the side words that say them a second time."""

import math
from typing import Literal, NamedTuple

from voicecoach.describe.values import Preferences
from voicecoach.head.values import Lie
from voicecoach.phrasebook.numbers import cardinal
from voicecoach.phrasebook.wording import words

SideWords = Literal["full", "one word", "where it helps", "one word where it helps", "none"]
"""How much of the side to say. Where it helps: only for hours that the ear confuses."""

_CONFUSED = {"five", "nine"}
# A side is named where it is more than a third of the way: at one o'clock "past and right",
# at three only "right", at half past twelve only "past".
_NAMED = 0.34


def to_whole(hour: float) -> int:
    """The nearest whole hour, 1 to 12; exactly half-way goes clockwise."""
    return (math.floor(hour + 0.5) - 1) % 12 + 1


def to_half(hour: float) -> float:
    """The nearest half-hour in (0, 12]; exactly half-way goes clockwise."""
    half = math.floor(hour * 2 + 0.5) / 2 % 12
    return half or 12.0


def spoken_hour(hour: float, terse: bool = False) -> str:
    """`two o'clock`, `half past three`, or to five minutes `ten to four`; tersely `two`."""
    minutes = round(hour % 12 * 12) * 5
    whole, past = minutes // 60 % 12 or 12, minutes % 60
    if past == 30:
        return words("hour.half past", hour=cardinal(whole))
    if past > 30:
        return words("hour.to", minutes=_minutes(60 - past), hour=cardinal(whole % 12 + 1))
    if past:
        return words("hour.past", minutes=_minutes(past), hour=cardinal(whole))
    return words("hour.bare" if terse else "hour.plain", hour=cardinal(whole))


def _minutes(count: int) -> str:
    return words("hour.quarter") if count == 15 else cardinal(count)


class HourSaid(NamedTuple):
    """An hour ready to be spoken."""

    hour: float
    text: str
    certain: bool
    """True for a called hour spoken plainly: its side may be said again whatever the doubt."""


def hour_said(lie: Lie, as_called: bool, prefs: Preferences, brief: bool = False) -> HourSaid | None:
    """The hour of a bowl, with "about" or "between" where the doubt asks for it."""
    hour = _hour(lie, as_called, prefs)
    if hour is None:
        return None
    if lie.sure == "between" and lie.between is not None:
        first, second = map(cardinal, lie.between)
        key = "hour.terse between" if prefs.terse else "hour.brief between" if brief else "hour.between"
        return HourSaid(hour, words(key, first=first, second=second), certain=False)
    text = spoken_hour(hour, prefs.terse)
    if lie.sure == "about":
        return HourSaid(hour, words("hour.about", hour=text), certain=False)
    return HourSaid(hour, text, as_called)


def _hour(lie: Lie, as_called: bool, prefs: Preferences) -> float | None:
    """The hour as this listener wants it; None where the bowl has no direction."""
    if lie.hour_exact is None:
        return None
    if as_called and lie.hour is not None:
        return float(to_whole(lie.hour)) if prefs.hours == "whole" else lie.hour
    if prefs.hours == "halves" and lie.sure == "plain":
        return to_half(lie.hour_exact)
    return float(to_whole(lie.hour_exact))


def may_be_misheard(hour_text: str) -> bool:
    """True for hours with five or nine in them, which the ear confuses."""
    return not _CONFUSED.isdisjoint(hour_text.split())


def side_of_hour(hour: float) -> tuple[str | None, str | None]:
    """Depth and side that an hour says: (`short`, `right`) for five o'clock."""
    angle = math.radians(hour * 30)
    past, right = math.cos(angle), math.sin(angle)
    depth = None if abs(past) < _NAMED else "past" if past > 0 else "short"
    side = None if abs(right) < _NAMED else "right" if right > 0 else "left"
    return depth, side


def side_words(said: HourSaid, lie: Lie, how: SideWords, prefs: Preferences) -> str:
    """The side in words, or nothing where it isn't wanted or isn't sure.

    A called hour is said again as called; for a recomputed one only the half-planes that the
    head vouches for are named. Where it vouches for none, "about nine" still needs a word that
    "about five" doesn't have: it tells the two apart, and claims no more than the hour does.
    """
    if how == "none" or ("where it helps" in how and not may_be_misheard(said.text)):
        return ""
    depth, side = side_of_hour(said.hour)
    if not said.certain:
        depth = depth if lie.depth == depth else None
        side = side if lie.left_right == side else None
        if not (depth or side) and lie.sure == "about" and may_be_misheard(said.text):
            depth, side = _meant(said.hour)
    side = listeners(side, prefs)
    if depth and side and "one word" not in how:
        return words("side.both", depth=words(f"side.{depth}"), side=words(f"side.{side}"))
    one = side or depth
    return words(f"side.{one}") if one else ""


def _meant(hour: float) -> tuple[str | None, str | None]:
    """The side that most of an hour lies on: short for five, left for nine."""
    depth, side = side_of_hour(hour)
    steeper = abs(math.cos(math.radians(hour * 30))) > abs(math.sin(math.radians(hour * 30)))
    return (depth, None) if steeper else (None, side)


def listeners(side: str | None, prefs: Preferences) -> str | None:
    """Left or right for the listener: the other one when facing the mat."""
    if prefs.facing == "jack" or side is None:
        return side
    return "left" if side == "right" else "right"
