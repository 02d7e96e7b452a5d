"""The sentence that sums the head up: who holds, how many, by how much, how sure."""

from voicecoach.describe.bowls import by_gap, side_name
from voicecoach.describe.distances import family, rounded, worked_out
from voicecoach.describe.values import Preferences, Sentence
from voicecoach.head.values import Holding, Picture
from voicecoach.phrasebook.numbers import cardinal
from voicecoach.phrasebook.wording import sentence, words
from voicecoach.understand.values import Side

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
    """How much nearer the holder's best bowl is; None without an opponent or where it rounds to nothing."""
    other: Side = "theirs" if side == "ours" else "ours"
    mine, his = by_gap(picture, side), by_gap(picture, other)
    if not mine or not his or mine[0].gap_m is None or his[0].gap_m is None:
        return None
    kind = family(mine[0].unit, prefs.units)
    sd_m = (mine[0].gap_sd_m ** 2 + his[0].gap_sd_m ** 2) ** 0.5
    lead_m = his[0].gap_m - mine[0].gap_m
    return worked_out(lead_m, sd_m, kind) if rounded(lead_m, sd_m, kind) > 0 else None
