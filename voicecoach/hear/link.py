"""How good the way from mouth to program is: clipped, faint, narrow, or drowned in noise."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from voicecoach.hear.blocks import RATE_HZ, Samples
from voicecoach.hear.segments import Utterance
from voicecoach.hear.values import DROWNED_DB, Link
from voicecoach.hear.voice_band import above_noise_in_voice_band_db

_FULL = 0.97
_FLAT = 0.004
"""More than this share of samples at full scale is a microphone turned up too far (common practice)."""
_FAINT_DB = -48.0
"""Speech below this level is lost in the steps of 16 bits and the hiss of cheap microphones."""
_NARROW_DB = -40.0
"""Above 4.2 kHz, speech through a telephone-grade link has this much less than between 0.5 and 3 kHz.

Measured on 85 recordings in several voices: -34 or more with the whole band, -44 or less without it,
even where the sound breaks off eight times in a note.
"""
_FRAME = 512
_LOUD_FRAMES = 90.0
"""The percentile of the frames that stands for the voice.

A gap in the sound clicks, which has every pitch in it, but only in a few frames.
"""
_NOISY_DB = 11.0
"""Speech less far above the noise before it counts as noisy: more of its notes are asked about than taken."""
_SILENCE_DB = 60.0
"""The most that is reported: no link carries more, and digital silence would be infinitely far below."""
_LEAD_S = 0.1
"""Noise is not measured in less sound than this before the speech, seconds."""
_LEAST = 1e-7
_NOISE_DB = 15.0
"""Speech less far above the noise is heard better with the noise turned down, in every decode.

That doesn't hold where it is drowned. There all decodes then made the same mistakes: 7 of 395 notes outdoors
at 5 dB were wrong, where 4 were before.

Notes spoken outdoors at 20 dB are measured as 18 to 23 dB above it, those at 10 dB as 8 to 14.
"""
_SILENT_DB = 20.0
"""Speech this far above the first half of the sound before it has no noise worth measuring in the second.

The soft "s" of "stop" goes by before speech is noticed, and is no noise.
"""


class LinkQuality(NamedTuple):
    """How good the link was in one utterance."""

    link: Link
    """Its worst fault, or `good`."""
    above_noise_db: float | None
    """How far the speech stood above what was heard before it, decibels, at most 60.

    None where next to nothing was heard before it: in a crowd, whose talk is taken for speech.
    """
    voice_above_noise_db: float | None
    """The same where a voice is understood by, -15 to 15 decibels: rumble hardly counts there."""


def in_noise(above_db: float | None) -> bool:
    """True where speech stands so far above the noise that every decode should turn the noise down."""
    return above_db is not None and DROWNED_DB <= above_db < _NOISE_DB


def judge(utterance: Utterance) -> LinkQuality:
    """Measure the noise of the link in one utterance, and name its worst fault."""
    above_db = above_noise_db(utterance)
    return LinkQuality(_fault(_parts(utterance)[1], above_db), above_db, voice_above_noise_db(utterance))


def _fault(speech: Samples, above_db: float | None) -> Link:
    if float(np.mean(np.abs(speech) >= _FULL * max(0.5, float(np.max(np.abs(speech)))))) > _FLAT:
        return "clipped"
    if _level(speech) < _FAINT_DB:
        return "faint"
    if above_db is not None and above_db < _NOISY_DB:
        return "noisy"
    if _highs(speech) < _NARROW_DB:
        return "narrow"
    return "good"


def above_noise_db(utterance: Utterance) -> float | None:
    """How far the speech of an utterance, complete or under way, stands above the noise: `LinkQuality`."""
    lead, speech = _parts(utterance)
    if lead.size < _LEAD_S * RATE_HZ:
        return None
    first, whole = (_level(speech) - _level(part) for part in (lead[: lead.size // 2], lead))
    return round(min(_SILENCE_DB, first if first >= _SILENT_DB else whole), 1)


def voice_above_noise_db(utterance: Utterance) -> float | None:
    """How far it stands above the noise in the voice's own band: see `LinkQuality`."""
    lead, speech = _parts(utterance)
    if lead.size < _LEAD_S * RATE_HZ:
        return None
    first = lead[: lead.size // 2]
    silent = _level(speech) - _level(first) >= _SILENT_DB
    return round(above_noise_in_voice_band_db(first if silent else lead, speech), 1)


def _parts(utterance: Utterance) -> tuple[Samples, Samples]:
    """What was heard before the speech, and the speech."""
    started = round((utterance.started_s - utterance.first_s) * RATE_HZ)
    ended = round((utterance.ended_s - utterance.first_s) * RATE_HZ)
    return utterance.samples[: max(0, started - 1_024)], utterance.samples[started:ended]


def _level(samples: Samples) -> float:
    """Root mean square in decibels below full scale; no samples at all count as very quiet."""
    if samples.size == 0:
        return -120.0
    return 10 * float(np.log10(np.mean(np.square(samples, dtype=np.float64)) + 1e-12))


def _highs(speech: Samples) -> float:
    """How much sound lies above 4.2 kHz, against the middle of the voice, decibels."""
    frames = speech[: speech.size // _FRAME * _FRAME].reshape(-1, _FRAME)
    if not frames.size:
        return 0.0
    power = np.square(np.abs(np.fft.rfft(frames * np.hanning(_FRAME).astype(np.float32))))
    hertz = np.fft.rfftfreq(_FRAME, 1 / RATE_HZ)
    middle = float(np.percentile(power[:, (hertz > 500) & (hertz < 3_000)].mean(axis=1), _LOUD_FRAMES))
    high = float(np.percentile(power[:, (hertz > 4_200) & (hertz < 7_000)].mean(axis=1), _LOUD_FRAMES))
    return 10 * float(np.log10((high + _LEAST) / (middle + _LEAST)))
