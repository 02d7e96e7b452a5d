"""The sound that every program hears: recorded notes with noise round them, silence, wind."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from tests.bench.hearing import noise
from tests.bench.hearing.corpus import trimmed
from tests.bench.soak_sounds import MINUTE, SCENES, SPOKEN
from voicecoach.hear.blocks import RATE_HZ, Samples, silence
from voicecoach.hear.recordings import load
from voicecoach.places import scenarios
from voicecoach.session.values import Outcome
from voicecoach.story import read_story

LEAD_S = 0.5
TAIL_S = 2.0
"""After the speech, so that a rule which wants much silence can find it."""
BETWEEN_S = 0.7
"""Between two notes where people speak without a rest."""
FAINT_DB = -60.0
"""Of the noise round the notes, below full scale: no program may rest because it is digital silence."""
SILENT_DB = -70.0
WIND_DB = -15.0
"""Of the wind round the notes, below the voice."""


@dataclass(frozen=True)
class Recorded:
    """A recorded line of a story."""

    say: str
    outcome: Outcome
    samples: Samples
    """From the first sound to the last: its end is the true end of speech."""


@dataclass(frozen=True)
class Mark:
    """Where a recording lies in a stream, seconds."""

    began_s: float
    """Where the noise before it begins; before that belongs to the one before."""
    ended_s: float
    """The true end of speech."""


def recorded() -> list[Recorded]:
    """Every line of the stories that comes with its recording, in order."""
    return [
        Recorded(step.say, step.outcome, trimmed(load(path.parent / step.audio)))
        for path in sorted(scenarios().glob("*/story.yaml"))
        for step in read_story(path).steps
        if step.audio
    ]


def laid(lines: Sequence[Samples], lead_s: float, tail_s: float) -> tuple[Samples, list[Mark]]:
    """The lines one after another with silence round each, and where each lies."""
    pieces, marks, at_s = [silence(0)], list[Mark](), 0.0
    for line in lines:
        marks.append(Mark(at_s, at_s + lead_s + line.size / RATE_HZ))
        pieces += [silence(lead_s), line, silence(tail_s)]
        at_s += sum(piece.size for piece in pieces[-3:]) / RATE_HZ
    return np.concatenate(pieces), marks


def streams(lines: Sequence[Recorded]) -> tuple[dict[str, Samples], list[Mark]]:
    """The streams by name; the marks are those of `calm` and of `in wind`."""
    dice = np.random.default_rng(8)
    spoken = [line.samples for line in lines]
    notes, marks = laid(spoken, LEAD_S, TAIL_S)
    unrested, _ = laid(spoken, 0.0, BETWEEN_S)
    minute = SCENES[0].noise(MINUTE, dice, [])
    round_notes = SCENES[0].noise(notes.size, dice, [])
    return {
        "calm": notes + _at(noise.pink(notes.size, dice), FAINT_DB),
        "in wind": notes + _at(round_notes, WIND_DB + _level_db(spoken)),
        "silence": _at(noise.pink(MINUTE, dice), SILENT_DB),
        "wind": _at(minute, 20 * np.log10(SPOKEN)),
        "speech": unrested + _at(noise.pink(unrested.size, dice), FAINT_DB),
    }, marks


def write(sounds: dict[str, Samples], folder: Path) -> None:
    """Each stream as bare samples of sixteen bits, which every program takes."""
    for name, samples in sounds.items():
        whole = np.round(np.clip(samples, -1, 1) * 32_767).astype("<i2")
        (folder / f"{name}.raw").write_bytes(whole.tobytes())


def _at(sound: Samples, decibels: float) -> Samples:
    """The sound at so many decibels below full scale."""
    return np.asarray(sound / _rms(sound) * 10 ** (decibels / 20), np.float32)


def _level_db(spoken: Sequence[Samples]) -> float:
    return float(20 * np.log10(_rms(np.concatenate(spoken))))


def _rms(sound: Samples) -> float:
    return float(np.sqrt(np.mean(np.square(sound)))) or 1.0
