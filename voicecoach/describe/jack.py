"""Where the jack lies, seen from the mat line."""

from voicecoach.describe.distances import as_called, family, own_unit, worked_out
from voicecoach.describe.hours import listeners
from voicecoach.describe.values import Preferences, Sentence
from voicecoach.head.values import Head, Picture
from voicecoach.phrasebook.wording import sentence, words
from voicecoach.understand.values import Where

_CALLED_SD_M = 0.3
"""A jack length is called to the half metre or metre (common practice, no source)."""
_MOVED_SD_M = 0.1
"""How far aside a jack went is said to the nearest ten centimetres where it was not far."""
_ASIDE_M = 0.1
"""Nearer to the centre line than this, a jack is on it: it is centred by eye."""
_SAME_M = 0.005
"""Lengths that differ by less are one length."""


def jack_place(picture: Picture, prefs: Preferences) -> Sentence:
    """How far the jack is from the mat line, and how far from the centre line once it has moved."""
    jack, place = picture.head.jack, picture.head.jack.place
    if jack.state == "dead" or place is None:
        return Sentence(text=sentence("sum.jack dead"))
    ditch = jack.state == "ditch"
    if not jack.called and not ditch:
        return Sentence(text=sentence("answer.jack not called"))
    start = "answer.jack ditch" if ditch else "answer.jack"
    length = _length(place.y_m, moved=bool(picture.head.jack_moves), prefs=prefs)
    if abs(place.x_m) < _ASIDE_M:
        return Sentence(text=sentence(start, length=length) if jack.called else words("jack.ditch"))
    key = f"{start} aside" if jack.called else f"{start} aside only"
    aside = _aside(abs(place.x_m), picture.head, prefs)
    side = words(f"side.{listeners('left' if place.x_m < 0 else 'right', prefs)}")
    return Sentence(text=sentence(key, length=length, aside=aside, side=side))


def _aside(aside_m: float, head: Head, prefs: Preferences) -> str:
    """How far from the centre line: as it was called while that is all there is to it."""
    move = head.jack_moves[-1] if head.jack_moves else None
    bowl_m = head.game.bowl_mm / 1000
    unit = own_unit(aside_m, move.where.unit if move else None, bowl_m)
    kind = family(unit, prefs.units)
    once = move is not None and len(head.jack_moves) == 1 and kind == family(unit)
    if once and move and abs(_called_aside(move.where) - aside_m) < _SAME_M:
        return as_called(aside_m, unit, bowl_m)
    return worked_out(aside_m, max(_MOVED_SD_M, head.game.relative_sd * aside_m), kind)


def _called_aside(where: Where) -> float:
    """How far aside a move was called to go; nothing where it went another way, too."""
    if where.across_m is not None:
        return abs(where.across_m)
    return where.gap_m or 0.0 if where.hour in (3.0, 9.0) else 0.0


def _length(length_m: float, *, moved: bool, prefs: Preferences) -> str:
    kind = family(None, prefs.units)
    if moved or kind != "metric":
        return worked_out(length_m, _CALLED_SD_M, "yards" if kind == "feet" else kind)
    return as_called(length_m, own_unit(length_m, "m", 1.0), 1.0)
