"""The voices of the lesson, none of which the hearing bench has, and what each of them is to say.

Kokoro's other voices (Apache-2.0), of every accent it has, alone and blended two by two; espeak-ng's
(GPL-3.0) for accents that it lacks. A job is planned where espeak-ng is, and may be spoken elsewhere.
"""

from __future__ import annotations

import json
import random
from collections.abc import Sequence
from pathlib import Path

from tests.bench.hearing.corpus import loud, trimmed
from tests.bench.hearing.engines import kokoro_spoken, kokoro_tokens, speak
from tests.bench.hearing.voices import VOICES
from tests.bench.lesson.wordings import sentences
from voicecoach.hear.blocks import Samples
from voicecoach.value import Value

_AMERICAN = ("alloy", "aoede", "jessica", "kore", "nicole", "river", "sky")
KOKORO = (
    *(f"af_{name}" for name in _AMERICAN),
    *(f"am_{name}" for name in ("echo", "eric", "liam", "onyx", "santa")),
    *("ef_dora", "em_alex", "em_santa", "ff_siwis", "hf_alpha", "hf_beta", "hm_omega", "hm_psi", "if_sara"),
    *("im_nicola", "jf_alpha", "jf_gongitsune", "jf_nezumi", "jf_tebukuro", "jm_kumo", "pf_dora", "pm_alex"),
    *("pm_santa", "zf_xiaobei", "zf_xiaoni", "zf_xiaoxiao", "zf_xiaoyi", "zm_yunjian", "zm_yunxi"),
    *("zm_yunxia", "zm_yunyang"),
)
ESPEAK = tuple(
    f"{accent}+{variant}"
    for accent in ("en-us", "en-gb-x-gbcwmd", "en-gb-x-rp", "en-us-nyc")
    for variant in ("f1", "f4", "f5", "m1", "m2", "m4", "m5", "m6", "m8", "klatt2", "klatt4")
)
_BLENDED = 0.6
_ESPEAK_SHARE = 0.12


class Job(Value):
    """One sentence in one voice."""

    text: str
    styles: tuple[tuple[str, float], ...] = ()
    """Kokoro's voices and the share of each; none for espeak-ng."""
    espeak: str = ""
    tokens: tuple[int, ...] = ()
    """Kokoro's sound letters."""
    speed: float = 1.0


def bench_voices() -> frozenset[str]:
    """Every voice that the bench has, as its engine calls it."""
    return frozenset(voice.name for voice in VOICES)


def plan(count: int, seed: int) -> list[Job]:
    """So many jobs: half of Kokoro's sentences are sounded out in the British way, half in the American."""
    dice = random.Random(seed)
    jobs = []
    for text in sentences(count, seed):
        speed = round(dice.uniform(0.8, 1.3), 2)
        if dice.random() < _ESPEAK_SHARE:
            jobs.append(Job(text=text, espeak=dice.choice(ESPEAK), speed=speed))
            continue
        chosen = dice.sample(KOKORO, 2 if dice.random() < _BLENDED else 1)
        share = round(dice.uniform(0.3, 0.7), 2) if len(chosen) == 2 else 1.0
        styles = tuple(zip(chosen, (share, round(1 - share, 2)), strict=False))
        tokens = tuple(kokoro_tokens(text, dice.choice(("en-gb", "en-us"))))
        jobs.append(Job(text=text, styles=styles, tokens=tokens, speed=speed))
    return jobs


def write(path: Path, jobs: Sequence[Job]) -> None:
    """Keep jobs as one JSON list."""
    path.write_text(json.dumps([job.model_dump(mode="json") for job in jobs]), encoding="utf-8")


def read(path: Path) -> list[Job]:
    """Read jobs that were kept."""
    return [Job.model_validate(one) for one in json.loads(path.read_text(encoding="utf-8"))]


def spoken(job: Job) -> Samples:
    """Its sound, from the first sound to the last, at one loudness."""
    if job.espeak:
        return loud(trimmed(speak("espeak", job.espeak, job.text, job.speed)))
    return loud(trimmed(kokoro_spoken(job.tokens, dict(job.styles), job.speed)))
