"""Reading back a head of sixteen bowls: how long the voice works at it, beside how long it plays."""

from __future__ import annotations

import time
from collections.abc import Iterator

from tests.bench.head import an_end, done
from voicecoach import describe
from voicecoach.describe.values import Preferences
from voicecoach.head import begin, picture
from voicecoach.speak import saying
from voicecoach.speak.voice import Voice


def lines() -> Iterator[str]:
    """The table's lines; times by the clock on the wall, since the voice works in a process of its own."""
    head = done(begin(), an_end(), []).head
    began = time.perf_counter()
    sentences = describe.read_back(picture(head), Preferences())
    wording_s = time.perf_counter() - began
    with Voice() as voice:
        voice.render("Ready.")
        first_s, rendered_s, plays_s = _rendered(sentences, voice)
        _, again_s, _ = _rendered(sentences, voice)
    yield (
        f"Read-back of sixteen bowls, rendering: {rendered_s:.2f} s for {plays_s:.1f} s of speech, "
        f"{100 * rendered_s / plays_s:.2f} percent of the time that it plays."
    )
    yield (
        f"Read-back of sixteen bowls, first sample: {wording_s + first_s:.3f} s after it was asked for; "
        f"the picture and the wording are {wording_s:.3f} s of it."
    )
    yield f"Read-back of sixteen bowls, rendered again: {again_s:.3f} s, since clauses are kept."


def _rendered(sentences: tuple[describe.Sentence, ...], voice: Voice) -> tuple[float, float, float]:
    """Seconds until the first sentence and until all are rendered, and seconds that they play."""
    began, plays_s, first_s = time.perf_counter(), 0.0, 0.0
    for sound in saying.each(sentences, voice):
        plays_s += sound.seconds
        first_s = first_s or time.perf_counter() - began
    return first_s, time.perf_counter() - began, plays_s
