"""The sentence that sums the head up: who holds, how many, by how much, how sure."""

from voicecoach.describe.bowls import by_gap, said_gap_m, side_name
from voicecoach.describe.distances import as_called, family
from voicecoach.describe.values import Preferences, Sentence
from voicecoach.head.values import Holding, Picture
from voicecoach.phrasebook.numbers import cardinal
from voicecoach.phrasebook.wording import sentence, words
from voicecoach.understand.values import Side, Unit

_LEAST_M = 0.004
"""Less than this is no margin that is said."""
SUM_PAUSE_S = 0.8
TERSE_SUM_PAUSE_S = 0.4


def sum_up(picture: Picture, prefs: Preferences) -> Sentence:
    """One sentence of at most twelve words."""
    pause_s = TERSE_SUM_PAUSE_S if prefs.terse else SUM_PAUSE_S
    return Sentence(text=_text(picture, prefs), pause_s=pause_s, group=0)


def shots_words(holding: Holding, prefs: Preferences) -> str:
    """`we hold two shots`, or `we hold` where the count is unsure."""
    side = holding.side or "ours"
    holds = side_name(side, prefs, "hold")
    if holding.shots is None:
        return holds
    key = "sum.terse" if prefs.terse else "sum.one shot" if holding.shots == 1 else "sum.shots"
    return words(key, holds=holds, shots=cardinal(holding.shots))


def _text(picture: Picture, prefs: Preferences) -> str:
    holding = picture.holding
    if picture.head.jack.state == "dead":
        return sentence("sum.jack dead")
    if holding is None:
        return sentence("sum.empty")
    if holding.side is None:
        return sentence("sum.tie" if by_gap(picture) else "sum.no live bowl")
    if not holding.sure:
        now = "terse close" if prefs.terse else "too close now" if picture.head.finished else "too close"
        return sentence(f"sum.{now}")
    return _held(holding, holding.side, picture, prefs)


def _held(holding: Holding, side: Side, picture: Picture, prefs: Preferences) -> str:
    """Who surely holds, how many, by how much."""
    if holding.shots is None:
        unsure = "sum.terse count unsure" if prefs.terse else "sum.count unsure"
        return sentence(unsure, holds=side_name(side, prefs, "hold"))
    start = shots_words(holding, prefs)
    lead = None if prefs.terse else _lead_words(picture, side, prefs)
    return sentence("sum.by", start=start, lead=lead) if lead else sentence("sum.plain", start=start)


def _lead_words(picture: Picture, side: Side, prefs: Preferences) -> str | None:
    """How much nearer the holder's best bowl is, by the figures that are read for both.

    None without an opponent, where the two sound alike, and where they are read in different units.
    """
    other: Side = "theirs" if side == "ours" else "ours"
    mine, his = by_gap(picture, side), by_gap(picture, other)
    if not mine or not his:
        return None
    kind = family(mine[0].unit, prefs.units)
    near, far = (said_gap_m(lies[0], picture, prefs) for lies in (mine, his))
    if near is None or far is None or kind != family(his[0].unit, prefs.units):
        return None
    lead_m = far - near
    unit: Unit = "m" if kind == "metric" else "ft" if kind == "feet" else "yd"
    return as_called(lead_m, unit, picture.head.game.bowl_mm / 1000) if lead_m > _LEAST_M else None
