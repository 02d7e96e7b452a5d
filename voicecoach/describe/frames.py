"""The frame, said once, and the cautions, always there."""

from voicecoach.describe.values import Preferences, Sentence
from voicecoach.phrasebook.wording import listed, sentence

_CAUTION_PAUSE_S = 0.05


def frame() -> Sentence:
    """What the clock means, said once at the start."""
    return Sentence(text=sentence("frame.start"), pause_s=0.6)


def turned(prefs: Preferences) -> tuple[Sentence, ...]:
    """What left, right and the clock mean for a listener who faces the mat; nothing otherwise."""
    if prefs.facing == "jack":
        return ()
    return (Sentence(text=sentence("frame.facing mat"), pause_s=0.6, group=0),)


def cautions(short: bool) -> tuple[Sentence, ...]:
    """The cautions as spoken: all of them in under fifteen seconds, or shortened."""
    spoken = listed("cautions.short" if short else "cautions.spoken")
    return tuple(Sentence(text=text, pause_s=_CAUTION_PAUSE_S) for text in spoken)


def written_cautions() -> tuple[str, ...]:
    """The cautions in full, for the README."""
    return listed("cautions.written")
