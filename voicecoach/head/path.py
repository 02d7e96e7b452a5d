"""The player's lines to a target on both hands, and what lies in their way."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from voicecoach.head.angle import angle, spreads
from voicecoach.head.bodies import Seen, bowl_radius, jack_radius, name_of, seen
from voicecoach.head.clearance import BLOCKED, CLEAR, STATES, TIGHT, Obstacle, Passing, Sweep
from voicecoach.head.curve import AT_REST_M, Curve
from voicecoach.head.learning import bowling_now
from voicecoach.head.sample import HEADS, Points, path_of, sampled, share
from voicecoach.head.values import Bowl, Head
from voicecoach.head.values.bowling import HANDS, way_out
from voicecoach.head.values.looks import HandLook, Hands
from voicecoach.understand.values import BowlName, Hand

ON_THE_LINE = 0.25
"""A body whose centre lies within this share of a bowl's diameter of the curve lies on it."""


@dataclass(frozen=True)
class Target:
    """Where the next bowl is meant to come to rest, in the end's frame, metres."""

    what: BowlName | Literal["jack", "place"]
    x_m: float
    y_m: float
    radius_m: float = 0.0
    """Of what lies there; 0 for a bare place."""
    sampled: Points | None = None
    """The place in each sampled head; None where it is in no doubt."""
    past_m: float = 0.0
    """Of a bare place: how far past the jack it was said to be, metres."""


def the_jack(head: Head) -> Target | None:
    """The jack as the target; None while it is dead."""
    jack = head.jack.place
    if jack is None:
        return None
    return Target("jack", *jack, jack_radius(head.game))


def the_bowl(head: Head, bowl: Bowl) -> Target | None:
    """A bowl as the target; None where it has no place, or the jack none to see it from."""
    place, jack = bowl.place, head.jack.place
    if place is None or jack is None:
        return None
    name = BowlName(side=bowl.side, number=bowl.number)
    return Target(name, *place, bowl_radius(head.game), _places(head, Seen(bowl, place, jack)))


def the_place(head: Head, right_m: float, past_m: float) -> Target | None:
    """A bare place as seen from the jack, metres between centres; None while the jack is dead."""
    jack = head.jack.place
    if jack is None:
        return None
    return Target("place", *jack.shifted(right_m, past_m))


def hands(head: Head, target: Target, hand: Hand | None = None) -> Hands:
    """Each hand's line to the target (or the one hand's that was asked about), the most open first."""
    obstacles = _obstacles(head, target)
    looks = [_look(head, target, each, obstacles) for each in HANDS if hand in (None, each)]
    looks.sort(key=lambda look: (STATES.index(look.state), -(look.clearance_m or math.inf)))
    return Hands(
        target=target.what,
        past_m=target.past_m,
        hands=tuple(looks),
        roughly=any(angle(bowling_now(head), look.hand).roughly for look in looks),
        right_hander=head.game.hand is None,
    )


def curve_to(head: Head, target: Target, hand: Hand) -> Curve:
    """The line on one hand, to where the bowl meets the target."""
    until = bowl_radius(head.game) + target.radius_m if target.radius_m else AT_REST_M
    right = way_out(hand, head.game.hand) == "right"
    return Curve(target.x_m, target.y_m, math.radians(angle(bowling_now(head), hand).deg), right, until)


def _look(head: Head, target: Target, hand: Hand, obstacles: list[Obstacle]) -> HandLook:
    curve = curve_to(head, target, hand)
    spread = spreads(bowling_now(head), float(curve.distance_m)).across_m
    sweep = Sweep(curve, bowl_radius(head.game), spread)
    passings = sweep.passing(obstacles)
    level = max((each.level for each in passings), default=CLEAR)
    named = _worst(passings, level)
    return HandLook(
        hand=hand,
        out=way_out(hand, head.game.hand),
        angle_deg=math.degrees(curve.angle),
        state=STATES[level],
        by=named.obstacle.name if named and level else None,
        near=named.obstacle.name if named else None,
        short_m=_short(target, named) if named else None,
        aside=_aside(named, sweep) if named else None,
        others=sum(each.level == level for each in passings) - 1 if level else 0,
        clearance_m=named.clearance_m if named else None,
        sure=_sure(sweep, passings, target, level),
    )


def _worst(passings: list[Passing], level: int) -> Passing | None:
    """What is named: the first body that blocks, the tightest of those that are tight, else the nearest."""
    counted = [each for each in passings if each.counts and each.level == level]
    if level == BLOCKED:
        return min(counted, key=lambda each: each.run)
    if level == TIGHT:
        return min(counted, key=lambda each: each.clearance_m / max(each.spread_m, 1e-9))
    return min(counted, key=lambda each: each.clearance_m, default=None)


def _short(target: Target, passing: Passing) -> float:
    """Between nearest parts along the straight line from the mat to the target, metres; 0 where level."""
    body = passing.obstacle
    along = (target.x_m * body.x_m + target.y_m * body.y_m) / math.hypot(target.x_m, target.y_m)
    short = math.hypot(target.x_m, target.y_m) - along - target.radius_m - body.radius_m
    return max(0.0, short)


def _aside(passing: Passing, sweep: Sweep) -> Literal["left", "right", "on"]:
    off = passing.clearance_m + passing.obstacle.radius_m + sweep.radius_m
    if off <= ON_THE_LINE * 2 * sweep.radius_m:
        return "on"
    return "left" if passing.left else "right"


def _sure(sweep: Sweep, passings: list[Passing], target: Target, level: int) -> float:
    """The share of the sampled heads in which the state is this one.

    A body whose every sampled place is farther off than any line could be tight is left out: it changes
    nothing in any of them.
    """
    curve = sweep.curve
    wander = 0.0
    if target.sampled is not None:
        curve = replace(curve, x_m=target.sampled[0], y_m=target.sampled[1])
        wander = 2 * float(np.hypot(target.sampled[0] - target.x_m, target.sampled[1] - target.y_m).max())
    worst = np.zeros(HEADS, dtype=np.int8)
    for each in passings:
        if each.clearance_m - each.obstacle.reach_m - wander > sweep.spread_m:
            continue
        worst = np.maximum(worst, sweep.sampled(each.obstacle, curve))
    return share(worst == level)


def _obstacles(head: Head, target: Target) -> list[Obstacle]:
    """Every live body on the green but the target."""
    found = [
        _obstacle(head, lies)
        for lies in seen(head)
        if lies.bowl.state == "live" and name_of(lies.bowl) != target.what
    ]
    jack = head.jack
    if target.what != "jack" and jack.state == "live" and jack.place is not None:
        found.append(Obstacle("jack", *jack.place, jack_radius(head.game)))
    return found


def _obstacle(head: Head, lies: Seen) -> Obstacle:
    x, y = lies.place
    places = _places(head, lies)
    reach = float(np.hypot(places[0] - x, places[1] - y).max())
    return Obstacle(name_of(lies.bowl), x, y, bowl_radius(head.game), places, reach)


def _places(head: Head, lies: Seen) -> Points:
    """One bowl's place in each sampled head, in the end's frame."""
    right, past = sampled(head, lies, path_of(head))
    return right + lies.jack.x_m, past + lies.jack.y_m
