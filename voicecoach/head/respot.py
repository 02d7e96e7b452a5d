"""A dead jack placed again on its spot, where the conditions of play have it so."""

import math
from typing import Literal

from voicecoach.head.bodies import bowls_in_place, jack_radius
from voicecoach.head.bounds import DITCH_CLEARANCE_M, ditch_edge_m
from voicecoach.head.moves import moved_event
from voicecoach.head.questions import refuse
from voicecoach.head.values import Event, Fact, Figures, Game, Head, JackMove, Point, Refused
from voicecoach.understand.values import JackMoved, JackSet, Where

CLEAR_M = 0.001
"""A jack that may touch no bowl is placed this far from it: the least that can be set by hand."""


def placed_again(head: Head, note: JackMoved | JackSet, length_m: float | None) -> Event | Refused:
    """Place the jack on the centre line: at a called length, or on the spot that the conditions name."""
    if length_m is None:
        edge = ditch_edge_m(head.game)
        if edge is None:
            return refuse("spot unknown", Figures(missing=_not_set(head.game)))
        length_m = edge - DITCH_CLEARANCE_M + jack_radius(head.game)
    spot = uncovered(head, length_m)
    where = Where(along_m=spot.y_m, across_m=0.0, remarks=("respotted",))
    event = moved_event(head, note, JackMove(dx_m=0.0, dy_m=0.0, where=where, relative_sd=0.0), spot)
    jack = event.jack.model_copy(update={"called": True, "state": "live"}) if event.jack else None
    covered: tuple[Fact, ...] = ("spot covered",) if spot.y_m < length_m else ()
    return event.model_copy(update={"jack": jack, "law": "19", "remarks": ("respotted", *covered)})


def _not_set(game: Game) -> Literal["both", "mat", "green"]:
    """What has to be known besides to find the spot."""
    if game.mat_m is None and game.green_m is None:
        return "both"
    return "mat" if game.mat_m is None else "green"


def uncovered(head: Head, length_m: float) -> Point:
    """The spot, or as near as possible to it on the line towards the other spot, touching no bowl.

    World Bowls Championships 2023, Conditions of Play 5.2. The other spot lies on the centre line at
    the mat's end of the rink, so the jack comes straight back towards the mat.
    """
    bowls = bowls_in_place(head)
    y = length_m
    while blocking := [bowl for bowl in bowls if bowl.gap_to(Point(0.0, y), jack_radius(head.game)) <= 0]:
        reach = blocking[0].radius_m + jack_radius(head.game) + CLEAR_M
        across, along = blocking[0].place
        y = along - math.sqrt(reach**2 - across**2)
    return Point(0.0, y)
