"""Answers about the player's line and weight: where it turns, how much longer, what a miss was, what if."""

from __future__ import annotations

from voicecoach.describe.bowls import bowl_name
from voicecoach.describe.called import called_words
from voicecoach.describe.confirming_game import length_words
from voicecoach.describe.distances import as_called, family, worked_out
from voicecoach.describe.hours import listeners
from voicecoach.describe.lengths import ahead_words, aside_words
from voicecoach.describe.sums import sum_up
from voicecoach.describe.values import Preferences, Sentence, Sentences
from voicecoach.head.values import Miss, Picture, Turning, Weight
from voicecoach.phrasebook.numbers import cardinal, spoken
from voicecoach.phrasebook.wording import capitals, words
from voicecoach.understand.values import BowlName, WhatIf

_SAME_DEG = 0.05
_LENGTH_SD_M = 0.1
_ALIKE_M = 0.1
"""A length that differs by less is the same to a player."""
_MISS_SD_M = 0.1


def turning_answer(found: tuple[Turning, ...], prefs: Preferences) -> Sentences:
    """Where the lines turn, and what they are aimed at: two sentences at most."""
    opening = words("lines.opening", what=words("lines.roughly"), rest="") if found[0].roughly else ""
    if len(found) == 1:
        return _one_turn(found[0], opening, prefs)
    if abs(found[0].angle_deg - found[1].angle_deg) < _SAME_DEG:
        turns = words("lines.both turn", hands=words("lines.hand.both"), **_turn(found[0], prefs))
        return _say(
            opening + (_lower(turns) if opening else turns),
            words("lines.both aim", aims=_aims(found[0], prefs)),
        )
    return _say(*(_brief(each, prefs) for each in found))


def angle_answer(found: tuple[Turning, ...]) -> Sentences:
    """The angle on each hand, and what it rests on; one sentence where both hands are alike."""
    alike = len(found) == 2 and _angle(found[0], "") == _angle(found[1], "")
    if alike and found[0].by != "shown":
        return _say(_angle(found[0], words("lines.hand.both")))
    return _say(*(_angle(each, words(f"lines.hand.{each.hand}")) for each in found))


def _angle(found: Turning, hand: str) -> str:
    low, high = (spoken(each) for each in found.interval_deg)
    bowls = words("lines.bowls.one" if found.bowls == 1 else "lines.bowls.many", count=cardinal(found.bowls))
    slots = {"low": low, "high": high, "bowls": bowls}
    return words(f"lines.angle.{found.by}", hand=hand, angle=spoken(found.angle_deg), **slots)


def weight_answer(found: Weight | None, prefs: Preferences) -> Sentences:
    """How much longer or shorter than our last bowl."""
    if found is None:
        return _say(words("lines.no bowl"))
    bowl = bowl_name(found.bowl.side, found.bowl.number, prefs)
    if abs(found.longer_m) < _ALIKE_M:
        return _say(words("lines.same length", bowl=bowl))
    length = worked_out(
        abs(found.longer_m), max(_LENGTH_SD_M, 0.15 * abs(found.longer_m)), family(None, prefs.units)
    )
    return _say(words("lines.longer" if found.longer_m > 0 else "lines.shorter", length=length, bowl=bowl))


def speed_answer(found: Weight | None, prefs: Preferences) -> Sentences:
    """The share by which the first speed differs from that of our last bowl."""
    if found is None:
        return _say(words("lines.no bowl"))
    bowl = bowl_name(found.bowl.side, found.bowl.number, prefs)
    share = round(abs(found.faster) * 100)
    if not share:
        return _say(words("lines.same speed", bowl=bowl))
    key = "lines.faster" if found.faster > 0 else "lines.slower"
    return _say(words(key, share=cardinal(share), bowl=bowl))


def miss_answer(found: Miss | None, prefs: Preferences) -> Sentences:
    """Whether our last bowl missed by line or by weight, and by how much."""
    return _say(words("lines.no bowl") if found is None else miss_words(found, prefs))


def miss_words(found: Miss, prefs: Preferences) -> str:
    """Line, weight, both or neither, in one sentence."""
    key = (
        "both"
        if found.line and found.weight
        else "line"
        if found.line
        else "weight"
        if found.weight
        else "neither"
    )
    side = listeners("right" if found.right_m > 0 else "left", prefs) or ""
    depth = "past" if found.past_m > 0 else "short"
    return words(
        f"lines.miss.{key}",
        across=_missed(abs(found.right_m), words(f"side.{side}"), prefs),
        along=_missed(abs(found.past_m), words(f"side.{depth}"), prefs),
    )


def no_target() -> Sentences:
    """Why a path can't be told."""
    return _say(words("lines.no target"))


def without_answer(name: BowlName, picture: Picture, prefs: Preferences) -> Sentences:
    """Who would hold without a bowl."""
    bowl = bowl_name(name.side, name.number, prefs)
    return _say(words("lines.without", bowl=bowl, head=_lower(sum_up(picture, prefs).text)))


def jack_answer(note: WhatIf, picture: Picture, prefs: Preferences) -> Sentences:
    """Who would hold with the jack moved."""
    head = _lower(sum_up(picture, prefs).text)
    if note.length_m is not None:
        return _say(words("lines.jack at", length=length_words(note.length_m), head=head))
    return _say(words("lines.jack went", move=_move(note, picture.head.game.bowl_mm / 1000), head=head))


def _move(note: WhatIf, bowl_m: float) -> str:
    """How the jack would go; along the rink it goes back or forward."""
    if note.gap_m is not None and note.remarks in (("past",), ("short",)):
        way = words(f"lines.way.{note.remarks[0]}")
        return words("called.directed", distance=as_called(note.gap_m, note.unit, bowl_m), direction=way)
    return called_words(note, bowl_m)


def _one_turn(found: Turning, opening: str, prefs: Preferences) -> Sentences:
    side = words(f"side.{listeners(found.out, prefs)}")
    turns = words("lines.turns", hand=words(f"lines.hand.{found.hand}"), side=side, **_turn(found, prefs))
    return _say(opening + (_lower(turns) if opening else turns), words("lines.aim", aims=_aims(found, prefs)))


def _brief(found: Turning, prefs: Preferences) -> str:
    side = words(f"side.{listeners(found.out, prefs)}")
    aim = words("lines.at mark", aside=aside_words(found.mark_m[1], prefs))
    hand = words(f"lines.hand.{found.hand}")
    return words("lines.brief turn", hand=hand, side=side, aim=aim, **_turn(found, prefs))


def _turn(found: Turning, prefs: Preferences) -> dict[str, str]:
    return {"up": ahead_words(found.up_m, prefs), "aside": aside_words(found.aside_m, prefs)}


def _aims(found: Turning, prefs: Preferences) -> str:
    """What the first direction passes at the mark, at the target's length, at the ditch."""
    aims = [words("lines.at mark", aside=aside_words(found.mark_m[1], prefs))]
    aims.append(words("lines.at jack", aside=aside_words(found.target_m[1], prefs)))
    if found.ditch_m is not None:
        aims.append(words("lines.at ditch", aside=aside_words(found.ditch_m[1], prefs)))
    return words("called.joint").join(aims)


def _missed(distance_m: float, side: str, prefs: Preferences) -> str:
    sd_m = max(_MISS_SD_M, 0.15 * distance_m)
    return words(
        "lines.miss side", distance=worked_out(distance_m, sd_m, family(None, prefs.units)), side=side
    )


def _lower(text: str) -> str:
    """A sentence as it goes on after a colon."""
    return text[:1].lower() + text[1:]


def _say(*texts: str) -> Sentences:
    return tuple(Sentence(text=capitals(text)) for text in texts)
