"""What the ear gives: words with their doubt, and when they were said."""

from typing import Annotated, Literal

from pydantic import BeforeValidator

from voicecoach.value import Value

UNKNOWN = "[unk]"
"""The recogniser's word for a word it was not told of."""
ANSWERS = "answers"
"""The decode that can hear only answers to the open question."""
DROWNED_DB = 8.0
"""Speech less far above the noise is heard badly, by all decodes alike, and some of it goes unnoticed.

Of 400 notes spoken outdoors at 5 dB 93 % are measured as such, and of those at 10 dB 2 %.
"""
Link = Literal["good", "clipped", "faint", "narrow", "noisy"]


def _writable(text: object) -> object:
    """Put question marks for what isn't text in a command line or in a file's name."""
    return text.encode("utf-8", "replace").decode("utf-8") if isinstance(text, str) else text


Text = Annotated[str, BeforeValidator(_writable)]
"""Text that can be written down, wherever it came from."""


class Word(Value):
    """One recognised word."""

    text: Text
    """The word, in lower case; `[unk]` where the recogniser knew no word."""
    confidence: float
    """The recogniser's own confidence, 0 to 1; 1 for typed words."""


class Hypothesis(Value):
    """One transcript that a decode holds possible: its only one, or one of its n best."""

    decode: str
    """Which decode it came from, such as `sentences`, `words` or `sentences-gated`."""
    text: Text
    """The words of this transcript, separated by single spaces."""
    weight: float
    """The share of this decode's belief, 0 to 1; the hypotheses of one decode add up to 1 at most."""


class Heard(Value):
    """One utterance, as text with its alternatives."""

    text: Text
    """The likeliest words, separated by single spaces."""
    words: tuple[Word, ...] = ()
    """The words of `text` with their confidences; empty for typed notes."""
    readings: tuple[Hypothesis, ...] = ()
    """The n-best lists of all decodes in one, the best first; empty for typed notes."""
    source: Text = "typed"
    """`typed`, the path of the recording as given, or the name of the microphone."""
    started_s: float | None = None
    """When speech began, seconds on the audio clock; None for typed notes."""
    ended_s: float | None = None
    """When speech ended, seconds on the audio clock; None for typed notes."""
    unheard_s: float | None = None
    """Seconds of speech without a word, at its beginning and its end; None where nobody knows."""
    cut: bool = False
    """True where speech went on for so long that it was cut: no note is that long."""
    link: Link = "good"
    """The worst fault of the way from mouth to program: how far to trust what came over it."""
    above_noise_db: float | None = None
    """How far the speech stood above the noise before it, decibels; None for typed notes, and where next
    to nothing was heard before it."""
    voice_above_noise_db: float | None = None
    """The same where a voice is understood by (ANSI S3.5-1997), from -15 to 15 decibels, so that rumble
    hardly counts. None where that is None."""

    @property
    def is_wordless(self) -> bool:
        """True where nothing was heard that may be a word."""
        return not self.text and not self.readings
