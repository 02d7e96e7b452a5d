"""The words that confirm the green's pace and the player's line."""

import math

from voicecoach.describe.distances import family, worked_out
from voicecoach.describe.lengths import aside_words
from voicecoach.describe.values import Preferences
from voicecoach.head.values import Game, Tally
from voicecoach.phrasebook.numbers import cardinal, spoken
from voicecoach.phrasebook.wording import sentence, words
from voicecoach.understand.notes.line_settings import GreenPace, LineTold, OnHand, Timed
from voicecoach.value import assert_never

_MARK_SD_M = 0.1


def bowling_words(game: Game, note: GreenPace | Timed | LineTold | OnHand, prefs: Preferences) -> str:
    """What is set now: what was timed is said back with the mean of all that were timed."""
    match note:
        case GreenPace():
            return sentence("lines.pace", pace=spoken(note.value))
        case Timed():
            return _timed(note.value or 0.0, game.bowling.timed)
        case OnHand():
            return sentence("lines.on hand", hand=words(f"lines.hand.{note.value}"))
        case LineTold():
            return _line(game, note, prefs)
        case _:
            return assert_never(note)


def _timed(seconds: float, timed: Tally) -> str:
    said = {"seconds": spoken(seconds), "pace": spoken(timed.mean)}
    if timed.spread is None:
        return sentence("lines.timed", **said)
    count, spread = cardinal(timed.count), spoken(max(timed.spread, 0.1))
    return sentence("lines.timed again", count=count, spread=spread, **said)


def _line(game: Game, note: LineTold, prefs: Preferences) -> str:
    """The line as an angle and as an aim, so that either of them misheard is noticed."""
    at_m = note.at_m or game.aim_at_m
    angle_deg = game.bowling.line(note.hand or "forehand").angle_deg or 0.0
    return sentence(
        "lines.line",
        hand=words(f"lines.hand.{note.hand or 'both'}"),
        angle=spoken(angle_deg),
        aside=aside_words(at_m * math.tan(math.radians(angle_deg)), prefs),
        at=worked_out(at_m, _MARK_SD_M, family(None, prefs.units)),
    )
