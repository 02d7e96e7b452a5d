"""Measures at the start what decoding takes here, and keeps as many decodes as can be afforded."""

from __future__ import annotations

from voicecoach import log_file, places
from voicecoach.hear.affordable import Speed, affordable, core
from voicecoach.hear.decodes import MOST
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.recordings import load

KNOWN = "first_end/14-read-the-head.wav"
"""The utterance that is measured with: two seconds, one of the recordings that come with the program."""

COSTS = "In calm that costs no right answer, in noise up to one of a hundred notes."
"""What fewer cost in right answers: `python -m tests.bench.hearing.fewer`."""


def afford(recogniser: Recogniser, ears: int = 1) -> tuple[int, Speed]:
    """Choose how many decodes listen, where so many people may speak at once: their number, and the speed."""
    speed = recogniser.speed(load(places.scenarios() / KNOWN), core())
    count = affordable(speed, ears)
    recogniser.keep(count)
    log_file.note("decodes", count=count, of=MOST, speed=speed)
    return count, speed


def in_words(count: int, speed: Speed) -> str:
    """What was chosen and what it costs, in plain sentences."""
    took = f"Listening in one way takes {100 * speed.decode / speed.core:.0f} percent of the processor"
    if speed.core < 1:
        took += f", of which the system gives it {100 * speed.core:.0f} percent of one core"
    if count == MOST:
        return f"{took}: it listens in all {MOST} ways at once."
    return f"{took}: it listens in {count} of {MOST} ways at once. {COSTS}"
