"""The head in stereo: each bowl is heard from where it lies, for a listener standing at the jack.

The listener faces away from the mat: what lies right of the jack is heard on the right. Two ears can't
tell ahead from behind, so how far up the rink a thing lies is heard in the pitch: **what lies past the
jack is spoken higher, what lies short of it lower**, and what is jack high in the ordinary voice. The
sound picture does the same with one short sound a bowl: ours rings like a bell, theirs buzzes like a
reed, the jack knocks like wood; the pitch rises by an octave for every two metres past the jack.
"""

from collections.abc import Iterator, Sequence
from typing import Literal

import numpy as np

from voicecoach.describe.values import Sentence
from voicecoach.speak.loudness import TARGET_LUFS, levelled, limit
from voicecoach.speak.placing import FromJack, azimuth, placed
from voicecoach.speak.samples import resample
from voicecoach.speak.saying import gap_s
from voicecoach.speak.values import Samples, StereoSound
from voicecoach.speak.voice import ORDINARY_PITCH, Voice

RATE_HZ = 48_000
FULL_PITCH = 22
"""How far the voice's pitch goes up or down, on the engine's own scale of 0 to 100."""
FULL_DEPTH_M = 2.0
"""How far past or short a thing lies where the pitch goes no further, metres."""

PICTURE_S = 4.0
LONGEST_STEP_S = 0.5
EDGE_S = 0.005
JACK_HIGH_HZ = 440.0
Piece = Literal["ours", "theirs", "jack"]
PARTIALS: dict[Piece, tuple[tuple[float, float], ...]] = {
    "ours": ((1.0, 1.0), (2.0, 0.3), (2.76, 0.25), (5.4, 0.1)),
    "theirs": tuple((float(number), 1 / number**0.7) for number in range(1, 14, 2)),
    "jack": ((1.0, 1.0), (1.47, 0.8), (2.09, 0.6), (3.4, 0.4)),
}
"""Frequencies and strengths in a sound, as multiples: a bell's are no whole numbers, a reed's are odd."""
DECAY_S: dict[Piece, float] = {"ours": 0.12, "theirs": 0.5, "jack": 0.02}


def pitch(place: FromJack | None) -> int:
    """The voice's pitch for what lies there."""
    return ORDINARY_PITCH + (0 if place is None else round(FULL_PITCH * depth(place)))


def depth(place: FromJack) -> float:
    """How far past the jack, from -1 (short) to 1."""
    return min(max(place[1] / FULL_DEPTH_M, -1.0), 1.0)


def each(
    sentences: Sequence[Sentence], voice: Voice, target_lufs: float = TARGET_LUFS
) -> Iterator[StereoSound]:
    """Each sentence from its place, and between them the silence that follows each."""
    for number, sentence in enumerate(sentences, 1):
        sound = voice.render(sentence.text, pitch(sentence.place), sentence.within_s)
        # Both ears together stay as loud as the voice, so it is levelled before it is placed: half the work.
        level = levelled(sound.samples, sound.rate_hz, target_lufs)
        fine = resample(level, sound.rate_hz, RATE_HZ)
        rows = placed(fine, RATE_HZ, azimuth(sentence.place or (0.0, 0.0)))
        yield StereoSound(samples=limit(rows, RATE_HZ), rate_hz=RATE_HZ)
        if number < len(sentences):
            rows = np.zeros((round(gap_s(sentence, voice) * RATE_HZ), 2), np.float32)
            yield StereoSound(samples=rows, rate_hz=RATE_HZ)


def render(sentences: Sequence[Sentence], voice: Voice, target_lufs: float = TARGET_LUFS) -> StereoSound:
    """All of them as one sound."""
    rows = [sound.samples for sound in each(sentences, voice, target_lufs)]
    return StereoSound(samples=np.concatenate([*rows, np.zeros((0, 2), np.float32)]), rate_hz=RATE_HZ)


def picture(
    places: Sequence[FromJack], sides: Sequence[Piece], target_lufs: float = TARGET_LUFS
) -> StereoSound:
    """The whole head in four seconds: one short sound for each body, in the order given."""
    rows = np.zeros((round(PICTURE_S * RATE_HZ), 2), np.float32)
    step_s = min(LONGEST_STEP_S, PICTURE_S / max(1, len(places)))
    for number, (place, side) in enumerate(zip(places, sides, strict=True)):
        sound = placed(_sound(place, side, 0.9 * step_s), RATE_HZ, azimuth(place))
        start = round(number * step_s * RATE_HZ)
        count = min(len(sound), len(rows) - start)
        rows[start : start + count] += sound[:count]
    return StereoSound(samples=levelled(rows, RATE_HZ, target_lufs), rate_hz=RATE_HZ)


def _sound(place: FromJack, side: Piece, seconds: float) -> Samples:
    """One short sound of a side's kind. Its pitch tells the depth, and all are equally loud."""
    moments = np.arange(round(seconds * RATE_HZ)) / RATE_HZ
    base_hz = JACK_HIGH_HZ * 2 ** depth(place)
    tones = sum(
        strength * np.sin(2 * np.pi * base_hz * multiple * moments) for multiple, strength in PARTIALS[side]
    )
    edges = np.minimum(1, np.minimum(moments, seconds - moments) / EDGE_S)
    shaped = tones * edges * np.exp(-moments / DECAY_S[side])
    return levelled(np.asarray(shaped, np.float32), RATE_HZ)
