"""What our own recogniser, with our phrase list, makes of the voice."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from tests.bench.listening.forms import Form
from voicecoach.hear.blocks import RATE_HZ, Samples
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.values import Heard
from voicecoach.speak.samples import resample
from voicecoach.speak.voice import Voice
from voicecoach.value import Value

_ONE = {"metres": "metre", "centimetres": "centimetre", "yards": "yard", "inches": "inch"}
"""Singular and plural mean the same."""


class Score(Value):
    """How much of what was said came back right."""

    said: int
    names: int
    """Whose bowl, and which."""
    hours: int
    distances: int
    wrong: tuple[tuple[str, str], ...]
    """What was said and what was heard, where a piece was wrong."""
    confused: tuple[tuple[str, int], ...]
    """The pieces that were wrong, the most frequent first."""


def hear(voice: Voice, text: str, recogniser: Recogniser) -> Heard:
    """A sentence spoken and heard again."""
    return recogniser.hear(spoken(voice, text))


def spoken(voice: Voice, text: str) -> Samples:
    """A sentence's sound at the recogniser's rate."""
    sound = voice.render(text)
    return resample(sound.samples, sound.rate_hz, RATE_HZ)


def score(voice: Voice, recogniser: Recogniser, forms: Iterable[Form]) -> Score:
    """Speak and hear each form."""
    right: Counter[str] = Counter()
    wrong: list[tuple[str, str]] = []
    confused: Counter[str] = Counter()
    for form in forms:
        heard = hear(voice, form.text, recogniser).text
        pieces = {"names": form.name, "hours": form.hour, "distances": form.distance}
        missed = {key: piece for key, piece in pieces.items() if not holds(heard, piece)}
        right.update(["said", *(pieces.keys() - missed.keys())])
        wrong += [(form.text, heard)] if missed else []
        confused.update(missed.values())
    return Score(
        said=right["said"],
        names=right["names"],
        hours=right["hours"],
        distances=right["distances"],
        wrong=tuple(wrong),
        confused=tuple(confused.most_common()),
    )


def holds(heard: str, piece: str) -> bool:
    """Whether the words of a piece were heard, next to each other and in order."""
    return f" {_plain(piece)} " in f" {_plain(heard)} "


def _plain(text: str) -> str:
    return " ".join(_ONE.get(word, word) for word in text.split())
