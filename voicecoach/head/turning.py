"""Where the player's lines turn, and what they are aimed at."""

from __future__ import annotations

from voicecoach.head.angle import angle
from voicecoach.head.bounds import ditch_edge_m
from voicecoach.head.learning import bowling_now
from voicecoach.head.path import Target, curve_to
from voicecoach.head.values import Head
from voicecoach.head.values.bowling import HANDS, way_out
from voicecoach.head.values.looks import Turning
from voicecoach.understand.values import Hand


def turning(head: Head, target: Target, hand: Hand | None = None) -> tuple[Turning, ...]:
    """Where each hand's line to the target turns (or the one hand's that was asked about)."""
    return tuple(_turning(head, target, each) for each in HANDS if hand in (None, each))


def _turning(head: Head, target: Target, hand: Hand) -> Turning:
    known = angle(bowling_now(head), hand)
    curve = curve_to(head, target, hand)
    ditch_m = ditch_edge_m(head.game)
    jack_m = float(curve.distance_m)
    return Turning(
        hand=hand,
        out=way_out(hand, head.game.hand),
        angle_deg=known.deg,
        interval_deg=known.interval_deg,
        up_m=curve.shoulder.up_m,
        aside_m=curve.shoulder.aside_m,
        mark_m=(head.game.aim_at_m, curve.aside_m(head.game.aim_at_m)),
        target_m=(jack_m, curve.aside_m(jack_m)),
        ditch_m=None if ditch_m is None else (ditch_m, curve.aside_m(ditch_m)),
        by=known.by,
        bowls=known.bowls,
        roughly=known.roughly,
    )
