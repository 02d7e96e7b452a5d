"""Lengths along and aside of the path: in metres, in feet, or in the walker's own paces."""

from voicecoach.describe.distances import family, worked_out
from voicecoach.describe.values import Preferences
from voicecoach.phrasebook.numbers import spoken
from voicecoach.phrasebook.wording import words

_ASIDE_SD_M = 0.06  # said to five centimetres
_NEAR_SD_M = 0.1  # said to ten centimetres
_FAR_SD_M = 0.3  # said to half a metre
_FAR_M = 5.0


def ahead_words(length_m: float, prefs: Preferences) -> str:
    """A length along the path: in paces where the walker's pace is known."""
    # Blind walkers judge distance better in their own steps than in feet (Kalia and others 2010).
    if prefs.pace_m:
        return _paces(length_m / prefs.pace_m)
    kind = family(None, prefs.units)
    if length_m < _FAR_M:
        return worked_out(length_m, _NEAR_SD_M, kind)
    return worked_out(length_m, _FAR_SD_M, "yards" if kind == "feet" else kind)


def aside_words(length_m: float, prefs: Preferences) -> str:
    """A length across the path, in the units of the gaps: it is reached for, not walked."""
    return worked_out(length_m, _ASIDE_SD_M, family(None, prefs.units))


def _paces(count: float) -> str:
    """Paces to the nearest half."""
    halves = int(count * 2 + 0.5)
    if halves <= 1:
        return words("distance.half a", unit=words("units.pace.one"))
    unit = words("units.pace.one" if halves == 2 else "units.pace.many")
    return words("distance.counted", count=spoken(halves / 2), unit=unit)
