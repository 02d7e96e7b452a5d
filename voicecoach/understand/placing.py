"""From a draft to a note about a bowl or the jack, or to what is missing or contradicts itself."""

from __future__ import annotations

from typing import Any, Literal

from voicecoach.understand.draft import Draft
from voicecoach.understand.meaning import COMPLETE, DIRECTIONS, Meaning, meaning
from voicecoach.understand.values import (
    BowlMoved,
    BowlName,
    BowlRested,
    Corrected,
    Expected,
    JackMoved,
    JackSet,
)

LIFE = frozenset({"toucher", "not a toucher", "live"})
"""Words about a bowl that lies already, unless a place is said with them."""
ACROSS = {"left": -1.0, "right": 1.0}
ALONG = {"short": -1.0, "past": 1.0}
JACK_LENGTHS_M = (10.0, 50.0)
"""Distances of the jack from the mat line; anything nearer is how far the jack moved."""
AT_ONCE_S = 1.5
"""A piece that follows a note within this time, and only adds whose it was, amends it."""


def bowl(draft: Draft, expected: Expected) -> Meaning | None:
    """What the draft means for a bowl."""
    if draft.scattered:
        return Meaning(BowlMoved(scattered=True)) if not draft.placed else None
    where = _where(draft)
    if where is None or _lone_bare_hour(draft) or not _seen_from(draft, where, expected):
        return None
    if draft.fixed or draft.opener:
        return _correction(draft, where, expected)
    if draft.out and "wrong bias" in draft.remarks:  # out of what is asked
        where["remarks"] = tuple(word for word in draft.remarks if word != "out of the rink")
    elif draft.out or (draft.by_hand and draft.number):
        return _done_to(draft, where)
    if draft.by_hand and COMPLETE.isdisjoint(draft.remarks):
        return None
    return _statement(draft, where, expected)


def _may_be_its_own_name(draft: Draft, landmark: BowlName, expected: Expected) -> bool:
    """True for "a metre behind our third" where no such bowl lies yet: it may be the bowl itself."""
    itself = draft.side is None and draft.number is None and landmark not in expected.lying
    return itself and bool((draft.landmark or {}).get("beyond"))


TOUCHING = frozenset({"touching", "toucher"})
"""Words that say how far as well as any figure: not at all."""


def _lone_bare_hour(draft: Draft) -> bool:
    """True for "at three" with no distance: a number in passing, unless it corrects."""
    bare = draft.hour is not None and draft.hour.bare
    far = bool(draft.gaps or draft.side or draft.number) or not TOUCHING.isdisjoint(draft.remarks)
    return bare and not far and not draft.fixed and draft.opener not in ("target", "was")


def _where(draft: Draft) -> dict[str, Any] | None:
    fields: dict[str, Any] = {"remarks": tuple(draft.remarks)}
    if draft.hour:
        fields |= {"hour": draft.hour.hour, "hour_width": draft.hour.width}
    if len(draft.gaps) == 2:
        if draft.hour:
            return None
        return _two_distances(draft, fields)
    if draft.gaps:
        fields |= {"gap_m": draft.gaps[0].metres, "unit": draft.gaps[0].unit}
    return fields


def _seen_from(draft: Draft, where: dict[str, Any], expected: Expected) -> bool:
    """Adds the bowl from which the place was said; false where there is no telling which that is."""
    if draft.landmark is None:
        return True
    if (
        draft.gaps and "touching" in draft.remarks
    ):  # "a metre at four, touching our first": a metre from the jack
        where["remarks"] = tuple(word for word in draft.remarks if word != "touching")
        return True
    where["landmark"] = _landmark(draft, expected)
    return where["landmark"] is not None and not _may_be_its_own_name(draft, where["landmark"], expected)


def _landmark(draft: Draft, expected: Expected) -> BowlName | None:
    """The bowl from which a place was said; None where it has no number or no such bowl is the last."""
    said = draft.landmark or {}
    if said.get("last"):
        lying = [name for name in expected.lying if said.get("side") in (None, name.side)]
        return lying[-1] if lying else None
    return BowlName(side=said["side"], number=said["number"]) if "number" in said else None


def _two_distances(draft: Draft, fields: dict[str, Any]) -> dict[str, Any] | None:
    """One distance along the rink and one across it."""
    for gap, word in draft.paired:
        if word in ALONG:
            fields["along_m"] = round(ALONG[word] * gap.metres, 6)
        elif word in ACROSS:
            fields["across_m"] = round(ACROSS[word] * gap.metres, 6)
    fields["unit"] = draft.gaps[0].unit
    return fields if "along_m" in fields and "across_m" in fields else None


def _statement(draft: Draft, where: dict[str, Any], expected: Expected) -> Meaning | None:
    if not draft.placed:
        return _name_only(draft, expected)
    said = {"side": draft.side, "number": draft.number}
    if draft.moved and (draft.number or draft.last or not (draft.by_hand or draft.went)):
        by = bool(draft.by) and not draft.to and draft.landmark is None
        return meaning(BowlMoved(**where, **said, by=by))
    if _is_about_lying(draft, expected):
        return Meaning(BowlMoved(**where, **said), passing=draft.said_of_much and not draft.side)
    if _in_passing(draft):
        return _passing(draft, where)
    if is_at_once(expected) and _is_tail(draft):
        return Meaning(Corrected(**where))
    return _rested(draft, where, said, expected)


def _rested(draft: Draft, where: dict[str, Any], said: dict[str, Any], expected: Expected) -> Meaning | None:
    """A bowl at rest; its distance may have no unit.

    Sixty of a bowl by name is centimetres. Where feet are spoken, or no name was said, sixty what is asked.
    """
    named = draft.side or draft.number or draft.denied
    if not draft.unitless or (named and not expected.feet):
        rested = meaning(BowlRested(**where, **said))._replace(passing=draft.unitless)
        in_bowls = any(gap.bare for gap in draft.gaps) and not draft.unitless
        return None if in_bowls and rested.missing else rested  # "they have four bowls"
    figure = round(100 * where["gap_m"], 6)
    note = BowlRested(**{**where, "gap_m": None, "unit": None}, **said)
    return Meaning(note, "gap", passing=True, figure=figure)


def _done_to(draft: Draft, where: dict[str, Any]) -> Meaning | None:
    """What was done to a bowl by name: knocked out, pushed back a foot."""
    if not draft.number or not draft.placed or not (draft.by_hand or draft.moved):
        return None
    slid = bool(draft.gaps) and draft.by is not False  # "it's now at": where it lies, not how far it went
    by = slid and not draft.to and COMPLETE.isdisjoint(draft.remarks)
    return meaning(BowlMoved(**where, side=draft.side, number=draft.number, by=by))


def _passing(draft: Draft, where: dict[str, Any]) -> Meaning | None:
    """Words for where that people say anyway; who types them is asked for the rest."""
    says = (
        not {*DIRECTIONS, "jack high", "touching", "wrong bias"}.isdisjoint(draft.remarks) and not draft.hour
    )
    return meaning(BowlRested(**where))._replace(passing=True) if says else None


def _is_tail(draft: Draft) -> bool:
    """True for an hour alone, or a distance alone: the end of the note just filed, cut off by a pause."""
    if draft.side or draft.number or draft.remarks:
        return False
    return (draft.hour is None) != (not draft.gaps)


def _in_passing(draft: Draft) -> bool:
    """True for words that people say anyway: "short", "right", "dead", "it's four o'clock"."""
    if draft.side or draft.number or draft.gaps or draft.whole:
        return False
    if draft.hour:
        return draft.glued
    return not set(draft.remarks) & (COMPLETE - {"dead"})


def _is_about_lying(draft: Draft, expected: Expected) -> bool:
    """True for words about a bowl that lies already, such as "our second is a toucher"."""
    words = set(draft.remarks) - {"about"}
    if draft.gaps or draft.hour or words & (DIRECTIONS | {"jack high", "touching"}):
        return False
    if words <= LIFE:
        return True
    names = {(name.side, name.number) for name in expected.lying}
    return draft.last or (draft.side, draft.number) in names


def is_at_once(expected: Expected) -> bool:
    """True when a piece follows so soon on a note that it can only amend it."""
    return expected.after_s is not None and expected.after_s <= AT_ONCE_S


def _name_only(draft: Draft, expected: Expected) -> Meaning | None:
    """Just after a note "theirs" says whose bowl that was; "our second" alone waits for the rest."""
    if draft.moved or draft.last:
        return None
    if draft.nearer:
        return Meaning(BowlRested(side=draft.side, number=draft.number), "gap", passing=draft.side is None)
    if is_at_once(expected):
        return Meaning(Corrected(side=draft.side, number=draft.number)) if draft.side else None
    if draft.side and draft.number:
        return Meaning(BowlRested(side=draft.side, number=draft.number), "gap")
    return None


def _correction(draft: Draft, where: dict[str, Any], expected: Expected) -> Meaning | None:
    target = _target(draft, expected)
    if draft.opener in ("target", "owner") and target is None and "last" not in (draft.target or {}):
        return None
    if draft.opener in ("was", "owner") and draft.placed:
        return None
    if not (draft.placed or draft.side or draft.number):
        return None
    itself = isinstance(target, BowlName) and (target.side, target.number) == (draft.side, draft.number)
    owner = {} if itself else {"side": draft.side, "number": draft.number}
    corrected = Corrected(**where, **owner, target=target)
    return meaning(corrected)._replace(passing=draft.bare_figure)


def _target(draft: Draft, expected: Expected) -> BowlName | Literal["jack"] | None:
    """The bowl named for correction, or the jack; None for the last note."""
    if draft.target == "jack":
        return "jack"
    if draft.denied and draft.side and draft.number and draft.placed:
        return BowlName.model_validate({"side": draft.side, "number": draft.number})
    name = draft.target or {}
    if "number" in name and "side" in name:
        return BowlName(side=name["side"], number=name["number"])
    if name.get("last") and "side" in name:
        return next((lain for lain in reversed(expected.lying) if lain.side == name["side"]), None)
    return None


def jack(draft: Draft) -> Meaning | None:
    """What the draft means for the jack."""
    if draft.ditched:
        if "in the ditch" not in draft.remarks:
            return None
        draft.add_remark("past")
    where = _where(draft)
    if where is None or draft.side or draft.number or not draft.opener:
        return None
    length = where.get("gap_m", draft.length)
    from_the_mat = length is not None and JACK_LENGTHS_M[0] <= length <= JACK_LENGTHS_M[1]
    if draft.fixed and (from_the_mat or (draft.moved and draft.placed)):
        said = {"gap_m": length} if from_the_mat else {}
        return Meaning(Corrected(**{**where, **said}, target="jack"))
    if length is not None and from_the_mat:
        return _length(draft, length)
    at_rest = draft.opener == "jack_set" or (draft.to and not draft.moved)
    if at_rest or not (draft.placed or draft.moved):
        return None
    return meaning(JackMoved(**where))


def _length(draft: Draft, length: float) -> Meaning | None:
    if draft.hour or draft.remarks:
        return None
    if draft.moved:
        return Meaning(JackMoved(length_m=length))
    return Meaning(JackSet(length_m=length))
