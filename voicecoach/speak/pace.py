"""How fast the voice speaks, in words a minute as heard: the speed of the words, and the gaps between them.

Below the default the words stay as they are and the gaps grow, since stretched words are harder to
follow. Only far below it are the words slowed as well. Above it both shrink.
"""

from voicecoach.value import Value

DEFAULT_WPM = 160
SLOWEST_WPM = 80
FASTEST_WPM = 350
STEPS = 5
"""Steps from the default to the slowest, and to the fastest."""

GAP_S_A_WORD = 0.05
"""Gaps inside a sentence at the default pace, spread over its words: two in a sentence of six or seven."""
DEFAULT_WORDS = 60 / (60 / DEFAULT_WPM - GAP_S_A_WORD)
"""Words a minute between the gaps at the default pace."""
LONGEST_GAPS = 3.5
"""Gaps grow to no more than this many times their length at the default pace."""


class Pace(Value):
    """How fast the words are, and how long the silences between them last."""

    words_per_minute: float
    """Words a minute between the gaps."""
    gaps: float
    """Gaps as a multiple of their length at the default pace."""


def limited(words_per_minute: float) -> int:
    """The nearest pace that can be spoken."""
    return round(min(max(words_per_minute, SLOWEST_WPM), FASTEST_WPM))


def stepped(steps: int) -> int:
    """The pace `steps` faster than usual (slower when negative); each step is the same ratio."""
    last = FASTEST_WPM if steps > 0 else SLOWEST_WPM
    return limited(DEFAULT_WPM * (last / DEFAULT_WPM) ** (abs(steps) / STEPS))


def pace(words_per_minute: float) -> Pace:
    """How to speak at so many words a minute, gaps between the pieces of a sentence included."""
    word_s = 60 / limited(words_per_minute)
    if word_s >= 60 / DEFAULT_WPM:
        gaps = min((word_s - 60 / DEFAULT_WORDS) / GAP_S_A_WORD, LONGEST_GAPS)
    else:
        gaps = word_s / (60 / DEFAULT_WPM)
    return Pace(words_per_minute=60 / (word_s - gaps * GAP_S_A_WORD), gaps=gaps)
