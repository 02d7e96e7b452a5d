"""The frame, said once, and the cautions, always there."""

from voicecoach.describe.values import Preferences, Sentence, Sentences
from voicecoach.phrasebook.wording import listed, sentence

_CAUTION_PAUSE_S = 0.05
_CAUTION_S_A_WORD = 0.34
"""A little faster than the rest, so that all of them take under fifteen seconds."""


def frame() -> Sentence:
    """What the clock means, said once at the start."""
    return Sentence(text=sentence("frame.start"), pause_s=0.6)


def hold_to_talk() -> Sentence:
    """That the talk key must be held, said once at the start where one is used."""
    return Sentence(text=sentence("frame.hold to talk"), pause_s=0.6)


def turned(prefs: Preferences) -> Sentences:
    """What left, right and the clock mean for a listener who faces the mat; nothing otherwise."""
    if prefs.facing == "jack":
        return ()
    return (Sentence(text=sentence("frame.facing mat"), pause_s=0.6, group=0),)


def cautions(short: bool) -> Sentences:
    """The cautions as spoken: all of them in under fifteen seconds, or shortened."""
    spoken = listed("cautions.short" if short else "cautions.spoken")
    return tuple(_caution(text) for text in spoken)


def written_cautions() -> tuple[str, ...]:
    """The cautions in full, as the README has them."""
    return listed("cautions.written")


def _caution(text: str) -> Sentence:
    return Sentence(
        text=text, pause_s=_CAUTION_PAUSE_S, within_s=round(_CAUTION_S_A_WORD * len(text.split()), 2)
    )
