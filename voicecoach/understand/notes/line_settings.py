"""Settings of the green's pace and of the player's line on each hand."""

from typing import Literal

from voicecoach.understand.notes.any_setting import AnySetting, OnOff
from voicecoach.understand.vocabulary import Hand


class GreenPace(AnySetting):
    """The pace of the green: seconds that a bowl takes to come to rest about 27 m away."""

    head_keeps = True

    name: Literal["green pace"] = "green pace"
    value: float


class Timed(AnySetting):
    """The bowl has stopped: the time since "away" is the green's pace, for a bowl near the jack."""

    head_keeps = True

    name: Literal["timed"] = "timed"
    value: float | None = None
    """Seconds from "away" to "stopped", filled in by whoever has the clock."""


class LineTold(AnySetting):
    """The player's line: an angle, or how wide the aim is at a mark; of one hand, or of both."""

    head_keeps = True

    name: Literal["line"] = "line"
    hand: Hand | None = None
    angle_deg: float | None = None
    aside_m: float | None = None
    at_m: float | None = None
    """How far the mark is in front of the mat line, metres; None for the player's own mark."""


class OnHand(AnySetting):
    """The hand that the player bowls on from now on."""

    head_keeps = True

    name: Literal["on hand"] = "on hand"
    value: Hand


class HandsTold(AnySetting):
    """Whether one sentence about the hands follows after "my turn"."""

    name: Literal["hands"] = "hands"
    value: OnOff
