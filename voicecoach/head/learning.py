"""What called bowls show of the player: how they came to rest, and how much they bend on each hand.

A bowl of ours counts as it came to rest, not as it was moved later. It counts for the hand whose line
was named last before it, for as long as that line stands as it was named: whoever goes over to the other
hand names that hand's line. Bowls of the end under way count as they are noted now, so that a correction
or a note taken back changes what they show; when an end is over they are added to the game's own tallies.
"""

from __future__ import annotations

import math

from voicecoach.head.bodies import find, name_of
from voicecoach.head.values import Bowl, Bowling, Came, Event, Game, Head, Line, OutTo, Point, way_out
from voicecoach.understand.values import BowlRested, Corrected

NEAREST_M = 1.0
"""A bowl that stops nearer to the mat than this says nothing about its line."""
_SAME = 1e-9
"""Figures that differ by less differ by the arithmetic alone."""


def with_what_it_shows(head: Head, event: Event) -> Event:
    """The event of a note, with how its bowls came to rest, and with the tallies of an end that is over."""
    if event.end is not None and head.bowls:
        game = event.game or head.game
        return event.model_copy(update={"game": game.model_copy(update={"bowling": bowling_now(head)})})
    if not isinstance(event.note, BowlRested | Corrected):
        return event
    bowls = tuple(_as_it_came(head, bowl) for bowl in event.bowls)
    return event if bowls == event.bowls else event.model_copy(update={"bowls": bowls})


def _as_it_came(head: Head, bowl: Bowl) -> Bowl:
    """The bowl with how it came to rest, where it was called from the jack as the jack lies now."""
    if bowl.side != "ours":
        return bowl.model_copy(update={"came": None}) if bowl.came else bowl
    if not bowl.calls or bowl.calls[-1].jack_moves != len(head.jack_moves) or _has_moved(head, bowl):
        return bowl
    place, jack = bowl.place, head.jack.place
    if bowl.state != "live" or place is None or place.y_m < NEAREST_M or jack is None:
        return bowl.model_copy(update={"came": None})
    right, past = apart(place, jack)
    hand = bowl.came.hand if bowl.came else head.game.bowling.on_hand
    aim = bowl.came.aim_deg if bowl.came else head.game.bowling.line(hand).angle_deg if hand else None
    return bowl.model_copy(update={"came": Came(right=right, past_m=past, hand=hand, aim_deg=aim)})


def _has_moved(head: Head, bowl: Bowl) -> bool:
    """Whether the bowl lies elsewhere than it came to rest, before this note about it."""
    lying, jack = find(head, name_of(bowl)), head.jack.place
    if lying is None or lying.state != "live" or lying.place is None or jack is None:
        return False
    lies = apart(lying.place, jack)
    return lying.came is None or math.dist(lies, (lying.came.right, lying.came.past_m)) > _SAME


def apart(rest: Point, jack: Point) -> tuple[float, float]:
    """How far right of the line to the jack a bowl came to rest, for each metre up, and how far past it.

    Bowls sent on one line at different speeds come to rest on one straight line through the mat (Judson,
    "Taking Aim", 2002, read): beside that line is line, along it is weight.
    """
    turned = math.atan2(rest.x_m, rest.y_m) - math.atan2(jack.x_m, jack.y_m)
    return math.tan(turned), math.hypot(*rest) - math.hypot(*jack)


def bowling_now(head: Head) -> Bowling:
    """The player's bowling with the bowls of the end under way."""
    bowling = head.game.bowling
    for bowl in head.bowls:
        if bowl.came:
            bowling = _with_bowl(bowling, bowl.came, head.game)
    return bowling


def _with_bowl(bowling: Bowling, came: Came, game: Game) -> Bowling:
    tallied = bowling.model_copy(
        update={
            "across": bowling.across.with_figure(came.right),
            "along": bowling.along.with_figure(came.past_m),
        }
    )
    if came.hand is None or came.aim_deg is None or bowling.line(came.hand).angle_deg != came.aim_deg:
        return tallied
    angle = shown_by(came.aim_deg, way_out(came.hand, game.hand), came.right)
    shown = bowling.line(came.hand).shown.with_figure(angle)
    return tallied.with_line(came.hand, Line(angle_deg=came.aim_deg, shown=shown))


def shown_by(aim_deg: float, out: OutTo, right: float) -> float:
    """How much a bowl bent, degrees: its aim, less how far it came to rest on the side it went out to.

    Its place of rest and the mat are the two ends of its own spiral, which leaves the mat on the aim.

    Args:
        aim_deg: Its first direction off the line to the jack, degrees.
        out: The side it went out to.
        right: How far right of that line it came to rest, for each metre up it.
    """
    turned = math.degrees(math.atan(right))
    return aim_deg - turned if out == "right" else aim_deg + turned
