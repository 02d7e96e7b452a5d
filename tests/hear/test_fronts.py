"""What is done to the sound before a decode: decodes that gate alike share the work, and hear the same."""

from concurrent.futures import ThreadPoolExecutor

import numpy as np
import pytest

from tests.hear.conftest import AUDIO
from voicecoach.hear.blocks import Samples
from voicecoach.hear.fronts import Front, Fronts, Stage
from voicecoach.hear.gate import NoiseGate
from voicecoach.hear.recordings import load

NAMES: tuple[Front, ...] = ("plain", "gated", "gated harder")


def pieces() -> list[Samples]:
    speech = load(AUDIO / "five_oclock.joe.flac")
    sound = speech + np.random.default_rng(5).normal(0, 0.02, speech.size).astype(np.float32)
    return [sound[start : start + 1_024] for start in range(0, sound.size, 1_024)]


def through(front: Stage) -> Samples:
    return np.concatenate([*(front.process(piece) for piece in pieces()), front.rest()])


@pytest.mark.parametrize("name", NAMES)
def test_a_front_gives_the_same_whether_others_share_it_or_not(name: Front) -> None:
    alone = through(Fronts().of(name))
    shared = Fronts()
    before = shared.of("gated")
    for piece in pieces()[:7]:  # another decode is further on
        before.process(piece)
    for front in (shared.of(name), shared.of(name)):
        assert np.array_equal(through(front), alone)


def test_two_decodes_that_end_at_once_on_two_threads_hear_what_each_would_alone() -> None:
    alone = through(Fronts().of("gated"))
    for _ in range(5):
        shared = Fronts()
        with ThreadPoolExecutor(3) as threads:
            found = list(threads.map(through, [shared.of("gated") for _ in range(3)]))
        assert all(np.array_equal(one, alone) for one in found)


def test_each_piece_is_gated_once_for_all(monkeypatch: pytest.MonkeyPatch) -> None:
    gated: list[int] = []
    real = NoiseGate.process

    def process(gate: NoiseGate, samples: Samples) -> Samples:
        gated.append(samples.size)
        return real(gate, samples)

    monkeypatch.setattr(NoiseGate, "process", process)
    shared = Fronts()
    for _ in range(3):
        through(shared.of("gated"))
    assert len(gated) == len(pieces()) + 1  # and once for what was kept back
