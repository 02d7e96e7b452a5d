"""What the hearing bench heard before is kept, and taken for the same clip only."""

from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from tests.bench.hearing.corpus import Clip
from tests.bench.hearing.lines import Line
from tests.bench.hearing.trials import Listener
from tests.bench.hearing.voices import VOICES
from voicecoach.hear.blocks import Block, Samples
from voicecoach.hear.values import Heard

LINE = Line(part="scored", form="plain", text="ours, a metre, two o'clock.", meaning={"kind": "bowl_rested"})


class Lengths:
    """An ear that hears how long the sound was."""

    def __init__(self) -> None:
        self.samples = 0

    def hear_block(self, block: Block, source: str) -> Iterator[Heard]:
        self.samples += block.samples.size
        yield from ()

    def finish(self, source: str) -> Iterator[Heard]:
        yield Heard(text=str(self.samples), source=source)
        self.samples = 0


def test_the_same_words_at_two_speeds_are_two_clips(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def sound(clip: Clip) -> Samples:
        return np.full(round(16_000 / clip.speed), 0.1, np.float32)

    monkeypatch.setattr(Clip, "sound", sound)
    clips = [Clip(voice, LINE, speed) for voice in VOICES[:2] for speed in (1.0, 1.25, 1.0)]
    kept = tmp_path / "kept.jsonl"
    first = Listener(Lengths(), []).run(clips, "clean", kept)
    assert len({trial.clip for trial in first}) == 4
    assert first[0].heard != first[1].heard
    again = Listener(Lengths(), []).run(clips, "clean", kept)
    assert again == first
    assert len(kept.read_text(encoding="utf-8").splitlines()) == len(clips)
