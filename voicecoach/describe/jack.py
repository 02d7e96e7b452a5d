"""Where the jack lies, seen from the mat line."""

from voicecoach.describe.distances import as_called, family, worked_out
from voicecoach.describe.hours import listeners
from voicecoach.describe.values import Preferences, Sentence
from voicecoach.head.values import Picture
from voicecoach.phrasebook.wording import sentence, words

_CALLED_SD_M = 0.3
"""A jack length is called to the half metre or metre (common practice, no source)."""
_ASIDE_M = 0.1
"""Nearer to the centre line than this, a jack is on it: it is centred by eye."""


def jack_place(picture: Picture, prefs: Preferences) -> Sentence:
    """How far the jack is from the mat line, and how far from the centre line once it has moved."""
    jack = picture.head.jack
    if jack.state == "dead":
        return Sentence(text=sentence("sum.jack dead"))
    if jack.state == "ditch":
        return Sentence(text=words("jack.ditch"))
    if not jack.called or jack.x_m is None or jack.y_m is None:
        return Sentence(text=sentence("answer.jack not called"))
    length = _length(jack.y_m, moved=bool(picture.head.jack_moves), prefs=prefs)
    if abs(jack.x_m) < _ASIDE_M:
        return Sentence(text=sentence("answer.jack", length=length))
    return Sentence(
        text=sentence(
            "answer.jack aside",
            length=length,
            aside=worked_out(abs(jack.x_m), _CALLED_SD_M, family(None, prefs.units)),
            side=words(f"side.{listeners('left' if jack.x_m < 0 else 'right', prefs)}"),
        )
    )


def _length(length_m: float, *, moved: bool, prefs: Preferences) -> str:
    kind = family(None, prefs.units)
    if moved or kind != "metric":
        return worked_out(length_m, _CALLED_SD_M, "yards" if kind == "feet" else kind)
    return as_called(length_m, "m", 1.0)
