"""What is open: each hand's line clear, tight or blocked, by what, how far short, how surely.

Two sentences at most, the more open hand first. It describes and never advises: the choice is the pair's.
"""

from __future__ import annotations

from voicecoach.describe.bowls import bowl_name, find
from voicecoach.describe.distances import Family, family, rounded, worked_out
from voicecoach.describe.hours import listeners
from voicecoach.describe.values import Preferences, Sentence, Sentences
from voicecoach.head.values import HandLook, Hands, Picture
from voicecoach.phrasebook.numbers import cardinal
from voicecoach.phrasebook.wording import capitals, words
from voicecoach.understand.values import BowlName

_DOUBT = 0.15
"""A distance short is said as exactly as a called one is sure."""
_LEAST_SD_M = 0.06
_CLEARANCE_SD_M = 0.03
_SURE_AT = 0.9
"""Said plainly from here on, as who holds is; "likely" down to a half, "perhaps" below."""
_LIKELY_AT = 0.5


def hands_answer(found: Hands, picture: Picture, prefs: Preferences) -> Sentences:
    """One sentence for each hand; one for both where both are clear."""
    parts = _parts(found, picture, prefs)
    first = _opened(found, parts[0], picture, prefs)
    about = [_named(look) for look in found.hands]
    texts = [first, *parts[1:]]
    return tuple(
        Sentence(text=f"{capitals(each)}.", about=name) for each, name in zip(texts, about, strict=False)
    )


def hands_sentence(found: Hands, picture: Picture, prefs: Preferences) -> Sentence:
    """Both hands in one sentence, for after "my turn"."""
    whole = words("lines.joint").join(_parts(found, picture, prefs))
    return Sentence(text=f"{capitals(_opened(found, whole, picture, prefs))}.")


def _parts(found: Hands, picture: Picture, prefs: Preferences) -> list[str]:
    """What is said of each hand, without a full stop."""
    looks = found.hands
    if len(looks) == 2 and all(map(_is_plainly_clear, looks)):
        return [words("lines.clear", hand=words("lines.hand.both"), clear=_state(looks[0]))]
    return [_of(look, picture, prefs) for look in looks]


def _of(look: HandLook, picture: Picture, prefs: Preferences) -> str:
    """One hand; where a clear one is in doubt, with the body that makes it so."""
    hand = words(f"lines.hand.{look.hand}")
    if look.near is None or _is_plainly_clear(look):
        return words("lines.clear", hand=hand, clear=_state(look))
    kind = _family(look.near, picture, prefs)
    aside = listeners(look.aside, prefs) if look.aside in ("left", "right") else look.aside
    slots = {"hand": hand, "state": _state(look), "by": _name(look.near, prefs)}
    slots["short"] = _short(look.short_m or 0.0, kind)
    if look.state == "blocked":
        start = words("lines.blocked", aside=words(f"lines.in the way.{aside}"), **slots)
    else:
        room = _room(look.clearance_m or 0.0, kind)
        start = words("lines.passed", aside=words(f"lines.beside.{aside}"), room=room, **slots)
    if not look.others:
        return start
    key = "lines.others.one" if look.others == 1 else "lines.others.many"
    return words(key, start=start, count=cardinal(look.others))


def _is_plainly_clear(look: HandLook) -> bool:
    return look.state == "clear" and _sure_key(look) == "plain"


def _named(look: HandLook) -> BowlName | None:
    """The bowl that the sentence of a hand speaks of."""
    return look.near if isinstance(look.near, BowlName) and not _is_plainly_clear(look) else None


def _state(look: HandLook) -> str:
    return words(f"lines.sure.{_sure_key(look)}", state=words(f"lines.state.{look.state}"))


def _sure_key(look: HandLook) -> str:
    return "plain" if look.sure >= _SURE_AT else "likely" if look.sure >= _LIKELY_AT else "perhaps"


def _short(short_m: float, kind: Family) -> str:
    sd_m = max(_LEAST_SD_M, _DOUBT * short_m)
    if rounded(short_m, sd_m, kind) <= 0:
        return words("lines.short.none")
    return words("lines.short.some", distance=worked_out(short_m, sd_m, kind))


def _room(clearance_m: float, kind: Family) -> str:
    if rounded(clearance_m, _CLEARANCE_SD_M, kind) <= 0:
        return words("lines.room.none")
    return words("lines.room.some", clearance=worked_out(clearance_m, _CLEARANCE_SD_M, kind))


def _opened(found: Hands, rest: str, picture: Picture, prefs: Preferences) -> str:
    """With what has to be said first: the target, whose hand was taken for granted, how rough it is."""
    parts: list[str] = []
    if isinstance(found.target, BowlName):
        parts.append(words("lines.to", target=_name(found.target, prefs)))
    elif found.target == "place":
        kind = family(None, prefs.units)
        distance = worked_out(found.past_m, max(_LEAST_SD_M, _DOUBT * found.past_m), kind)
        parts.append(words("lines.to", target=words("lines.past", distance=distance)))
    if found.right_hander:
        parts.append(words("lines.right hander"))
    if found.roughly:
        parts.append(words("lines.roughly"))
    return words("lines.opening", what=words("lines.opening joint").join(parts), rest=rest) if parts else rest


def _name(name: BowlName | str, prefs: Preferences) -> str:
    return bowl_name(name.side, name.number, prefs) if isinstance(name, BowlName) else words("body.jack")


def _family(name: BowlName | str, picture: Picture, prefs: Preferences) -> Family:
    lie = find(picture, name) if isinstance(name, BowlName) else None
    return family(lie.unit if lie else None, prefs.units)
