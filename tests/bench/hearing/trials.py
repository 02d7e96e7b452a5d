"""One clip under one condition through the ear, as it would come from a live microphone."""

from __future__ import annotations

import json
import time
import zlib
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Protocol

import numpy as np

from tests.bench.hearing.corpus import Clip
from tests.bench.hearing.noise import LEAD_S, Condition, heard_through
from voicecoach.hear.blocks import BLOCK, RATE_HZ, Block, Samples
from voicecoach.hear.values import Heard
from voicecoach.value import Value


class AnEar(Protocol):
    """Anything that hears blocks one after the other."""

    def hear_block(self, block: Block, source: str) -> Iterator[Heard]:
        """Hear the next block and give what ended in it."""
        ...

    def finish(self, source: str) -> Iterator[Heard]:
        """The sound has ended."""
        ...


class Trial(Value):
    """What came of one clip."""

    clip: str
    """Its voice and file: a voice may say the same words at two speeds."""
    voice: str
    natural: bool
    form: str
    text: str
    condition: str
    meaning: dict[str, object] | None
    heard: tuple[Heard, ...]
    late_s: tuple[float, ...]
    """For each heard: from the true end of the clip's speech until it was given."""
    sound_s: float
    work_s: float
    """Processor time for all of it."""


class Listener:
    """One way to hear, and the talk of other people that it is tried against."""

    def __init__(self, ear: AnEar, talk: list[Samples]) -> None:
        self._ear = ear
        self._talk = talk

    def run(self, clips: Iterable[Clip], condition: Condition, kept: Path) -> list[Trial]:
        """Every clip under one condition; what was heard before in the same way is read from disk."""
        kept.parent.mkdir(parents=True, exist_ok=True)
        before: dict[str, list[Trial]] = {}
        for trial in read_trials(kept):
            before.setdefault(trial.clip, []).append(trial)
        trials: list[Trial] = []
        with kept.open("a", encoding="utf-8") as file:
            for clip in clips:
                heard = before.get(trial_key(clip))  # the corpus may hold a clip twice
                if heard:
                    trial = heard.pop(0)
                else:
                    trial = self.listen(clip, condition)
                    file.write(json.dumps(trial.model_dump()) + "\n")
                    file.flush()
                trials.append(trial)
        return trials

    def listen(self, clip: Clip, condition: Condition) -> Trial:
        """Let the ear hear one clip."""
        speech = clip.sound()
        sound = heard_through(speech, condition, _dice(clip, condition), self._talk, clip.voice.part)
        ends_s = LEAD_S + speech.size / RATE_HZ
        began = time.process_time()
        found = [
            (heard, round(clock_s + work_s - ends_s, 3))
            for heard, clock_s, work_s in _heard(self._ear, sound)
        ]
        return Trial(
            clip=trial_key(clip),
            voice=clip.voice.key,
            natural=clip.voice.natural,
            form=clip.line.form,
            text=clip.line.text,
            condition=condition,
            meaning=clip.line.meaning,
            heard=tuple(heard for heard, _ in found),
            late_s=tuple(late for _, late in found),
            sound_s=round(sound.size / RATE_HZ, 3),
            work_s=round(time.process_time() - began, 3),
        )


def trial_key(clip: Clip) -> str:
    """By which a trial's clip is known."""
    return f"{clip.voice.key}/{clip.path.name}"


def _dice(clip: Clip, condition: Condition) -> np.random.Generator:
    """The same noise for the same clip and condition, whoever hears it."""
    return np.random.default_rng(zlib.crc32(f"{clip.path.name}|{condition}".encode()))


def _heard(ear: AnEar, sound: Samples) -> Iterator[tuple[Heard, float, float]]:
    """Each utterance with the audio clock and the work that its last block took."""
    for start in range(0, sound.size, BLOCK):
        block = Block(sound[start : start + BLOCK], start / RATE_HZ)
        began = time.process_time()
        for heard in ear.hear_block(block, "bench"):
            yield heard, block.at_s + block.samples.size / RATE_HZ, time.process_time() - began
    for heard in ear.finish("bench"):
        yield heard, sound.size / RATE_HZ, 0.0


def read_trials(path: Path) -> list[Trial]:
    """What was heard before, and kept; nothing where there is no such file."""
    if not path.exists():
        return []
    return [Trial.model_validate_json(line) for line in path.read_text(encoding="utf-8").splitlines() if line]
