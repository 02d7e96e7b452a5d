"""What the ear gives: words with their doubt, and when they were said."""

from typing import Literal

from voicecoach.value import Value

Link = Literal["good", "clipped", "faint", "narrow", "noisy"]


class Word(Value):
    """One recognised word."""

    text: str
    """The word, in lower case; `[unk]` where the recogniser knew no word."""
    confidence: float
    """The recogniser's own confidence, 0 to 1; 1 for typed words."""


class Reading(Value):
    """One way to read the utterance: a decode, or an alternative within a decode."""

    decode: str
    """Which decode it came from, such as `sentences`, `words` or `sentences-gated`."""
    text: str
    """The words of this reading, separated by single spaces."""
    weight: float
    """The share of this decode's belief, 0 to 1; the readings of one decode add up to 1 at most."""


class Heard(Value):
    """One utterance, as text with its alternatives."""

    text: str
    """The likeliest words, separated by single spaces."""
    words: tuple[Word, ...] = ()
    """The words of `text` with their confidences; empty for typed notes."""
    readings: tuple[Reading, ...] = ()
    """Every reading of every decode, the best first; empty for typed notes."""
    source: str = "typed"
    """`typed`, the path of the recording as given, or the name of the microphone."""
    started_s: float | None = None
    """When speech began, seconds on the audio clock; None for typed notes."""
    ended_s: float | None = None
    """When speech ended, seconds on the audio clock; None for typed notes."""
    link: Link = "good"
    """The worst fault of the way from mouth to program: how far to trust what came over it."""
