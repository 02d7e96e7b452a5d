"""How long it takes until the right note is filed: from the end of the first try, questions included."""

from __future__ import annotations

from functools import cache

import numpy as np

from tests.bench.hearing.engines import speak
from tests.bench.hearing.outcomes import After, Verdict
from tests.bench.hearing.trials import Trial
from tests.bench.hearing.truthful import plainly, truthful
from voicecoach.hear.blocks import RATE_HZ

WAITS_S = 0.5
"""Before somebody answers a question (common practice, no source)."""
NOTICES_S = 2.0
"""Before somebody who hears nothing says it again (common practice, no source)."""
AGAIN = "Say that again, plainly, please."


def seconds(trial: Trial, verdict: Verdict, after: After | None) -> float:
    """Until the right note is filed.

    A wrong one is read back, taken back and said again. What isn't right after one question is said again,
    and taken to be right then.
    """
    late = trial.late_s[-1] if trial.late_s else 0.0
    if verdict.outcome == "right":
        return late
    again_s = WAITS_S + length_s(trial.text) + late
    if verdict.outcome == "dropped":
        return late + NOTICES_S + again_s
    if verdict.outcome == "wrong":
        return late + length_s(trial.text) + WAITS_S + length_s("take that back") + late + again_s
    asked = verdict.question.ask if verdict.question else AGAIN
    answer = truthful(trial.meaning, verdict.question) if verdict.question else None
    reply = answer or plainly(trial.meaning) or trial.text
    once = late + length_s(asked) + WAITS_S + length_s(reply) + late
    return once if after == "right" else once + length_s(AGAIN) + again_s


@cache
def length_s(text: str) -> float:
    """How long the words take to say, by espeak-ng at its usual pace."""
    return float(np.size(speak("espeak", "en-gb", text, 1.0))) / RATE_HZ
