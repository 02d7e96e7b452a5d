"""The player's lines, for the session: what a question is about, and the looks that answer it."""

from __future__ import annotations

from dataclasses import replace

from voicecoach.head.bodies import bowl_radius, find, jack_radius
from voicecoach.head.miss import miss, weight
from voicecoach.head.path import Target, hands, the_bowl, the_jack, the_place
from voicecoach.head.picture import picture
from voicecoach.head.questions import refuse
from voicecoach.head.turning import turning
from voicecoach.head.values import Figures, Head, Refused
from voicecoach.head.what_if import with_jack_moved, without
from voicecoach.understand.values import BowlName, LineAsked, WhatIf

__all__ = [
    "hands",
    "meant",
    "miss",
    "target_of",
    "turning",
    "weight",
    "with_jack_moved",
    "without",
]


def target_of(head: Head, question: LineAsked) -> Target | None:
    """Where the next bowl is meant to come to rest; None for a bowl or a jack without a place."""
    if question.past_m is not None:
        reach = bowl_radius(head.game) + jack_radius(head.game)
        place = the_place(head, 0.0, question.past_m + reach)
        return replace(place, past_m=question.past_m) if place else None
    if question.side is None or question.number is None:
        return the_jack(head)
    bowl = find(head, BowlName(side=question.side, number=question.number))
    return the_bowl(head, bowl) if bowl else None


def meant(head: Head, note: WhatIf, spoken_of: BowlName | None) -> BowlName | Refused:
    """The bowl that is taken away: as named, else the one spoken of last, else the shot bowl."""
    if note.side is not None and note.number is not None:
        name = BowlName(side=note.side, number=note.number)
        return name if find(head, name) else refuse("bowl not called", Figures(bowl=name))
    if note.side is None and spoken_of is not None and find(head, spoken_of):
        return spoken_of
    lies = [lie for lie in picture(head).lies if lie.gap_m is not None and note.side in (None, lie.side)]
    if not lies:
        return refuse("no such bowl")
    chosen = lies[-1] if note.side else min(lies, key=lambda lie: lie.gap_m or 0.0)
    return BowlName(side=chosen.side, number=chosen.number)
