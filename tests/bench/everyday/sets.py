"""What is tuned on and what is scored: voices, wordings and weather that are never in both."""

from __future__ import annotations

import zlib
from collections.abc import Iterator

from tests.bench.hearing import corpus
from tests.bench.hearing.corpus import Clip
from tests.bench.hearing.lines import Part, everyday, lines
from tests.bench.hearing.noise import Condition
from tests.bench.hearing.voices import VOICES, Voice
from voicecoach.value import Value

TUNED_UNDER: tuple[Condition, ...] = (
    "clean",
    "weather 20 dB",
    "weather 10 dB",
    "weather 5 dB",
    "poor link",
)
SCORED_UNDER: tuple[Condition, ...] = ("clean", "weather 20 dB", "weather 10 dB", "weather 5 dB")


class Share(Value):
    """How much one voice says."""

    voice: str
    notes: int
    everyday: int
    asked: int
    talk: int


_SHARES = (
    Share(voice="flite-slt", notes=110, everyday=96, asked=63, talk=60),
    Share(voice="kokoro-af_heart", notes=12, everyday=12, asked=10, talk=5),
    Share(voice="kokoro-am_michael", notes=12, everyday=12, asked=10, talk=5),
    Share(voice="kokoro-bf_emma", notes=12, everyday=12, asked=10, talk=5),
    Share(voice="kokoro-bm_lewis", notes=12, everyday=12, asked=10, talk=5),
    Share(voice="kokoro-bm_daniel", notes=12, everyday=12, asked=10, talk=5),
    Share(voice="espeak-en-gb", notes=30, everyday=24, asked=21, talk=30),
    Share(voice="espeak-en-gb-x-rp+f3", notes=30, everyday=24, asked=21, talk=20),
    Share(voice="festival-cmu_us_slt_arctic_hts", notes=40, everyday=24, asked=21, talk=30),
    Share(voice="piper-joe", notes=70, everyday=48, asked=42, talk=30),
    Share(voice="flite-rms", notes=70, everyday=48, asked=42, talk=30),
    Share(voice="kokoro-bf_isabella", notes=8, everyday=8, asked=10, talk=4),
    Share(voice="kokoro-bm_george", notes=8, everyday=8, asked=10, talk=4),
    Share(voice="kokoro-af_nova", notes=8, everyday=8, asked=10, talk=4),
    Share(voice="flite-awb", notes=25, everyday=12, asked=21, talk=12),
    Share(voice="espeak-en-gb-scotland", notes=25, everyday=12, asked=21, talk=12),
)
"""Enough of each for a share in per cent, and little enough to be spoken and heard within two hours."""


def clips(part: Part) -> list[Clip]:
    """The part's clips, each voice's notes first, then loose wordings, questions and talk."""
    voices = {voice.key: voice for voice in VOICES}
    return [
        clip
        for share in _SHARES
        if voices[share.voice].part == part
        for clip in _of(voices[share.voice], share)
    ]


def conditions(clip: Clip) -> tuple[Condition, ...]:
    """What the clip is heard through: three of those scored, or two of those tuned on, by its name."""
    first = zlib.crc32(f"{clip.voice.key}|{clip.path.name}".encode()) % len(TUNED_UNDER)
    if clip.voice.part == "scored":
        return "clean", "weather 10 dB", ("weather 20 dB", "weather 5 dB")[first % 2]
    return TUNED_UNDER[first], TUNED_UNDER[(first + 2) % len(TUNED_UNDER)]


def _of(voice: Voice, share: Share) -> Iterator[Clip]:
    seed = zlib.crc32(voice.key.encode())
    said = [
        *lines(voice.part, share.notes, 0, seed),
        *everyday(voice.part, "notes", share.everyday, seed),
        *everyday(voice.part, "asked", share.asked, seed),
        *lines(voice.part, 0, share.talk, seed),
    ]
    for line in said:
        yield Clip(voice, line, (0.9, 1.0, 1.0, 1.1, 1.2)[zlib.crc32(line.text.encode()) % 5])


def speak(part: Part) -> list[Clip]:
    """The part's clips, spoken where they weren't yet."""
    every = clips(part)
    corpus.complete(every)
    return every
