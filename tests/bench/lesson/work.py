"""The steps of the lesson, and the folder that they fill."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Sequence
from multiprocessing import get_context
from pathlib import Path
from typing import TypeVar

import numpy as np
import torch

from tests.bench.hearing.noise import Condition
from tests.bench.lesson import speaking
from tests.bench.lesson.banks import Bank, keep, make_noise
from tests.bench.lesson.kaldi import WEIGHTS, components, mixed
from tests.bench.lesson.scoring import chosen, score, table, with_weights
from tests.bench.lesson.teaching import Lesson, Plan
from voicecoach import places as folders
from voicecoach.hear.blocks import Samples
from voicecoach.model_store.manifest import load
from voicecoach.model_store.taught import laid_over, packed

Part = TypeVar("Part")
_TOGETHER = 16
"""Sentences in one file: so soon can the lesson use them."""
NOISES = 150
"""Rows of noise in one file."""


def original_model() -> Path:
    """The folder of the model as its makers made it: a lesson never begins from a student."""
    return folders.models() / load().name


class Work:
    """One lesson's folder, and the steps that fill it."""

    def __init__(self, folder: Path, processes: int, tell: Callable[[str], None]) -> None:
        self._folder, self._processes, self._tell = folder, processes, tell
        self.speech, self.noise = (self._made(name) for name in ("speech", "noise"))

    def _made(self, name: str) -> Path:
        path = self._folder / name
        path.mkdir(parents=True, exist_ok=True)
        return path

    def plan(self, count: int) -> None:
        """Draw what is to be said, and by whom."""
        path = self._folder / "jobs.json"
        if not path.exists():
            speaking.write(path, speaking.plan(count, seed=1))

    def speak(self) -> None:
        """Say what hasn't been said yet."""
        jobs = speaking.read(self._folder / "jobs.json")
        parts = [
            (jobs[start : start + _TOGETHER], self.speech / f"{start:05}.npz")
            for start in range(0, len(jobs), _TOGETHER)
        ]
        self._each(_speak, [part for part in parts if not part[1].exists()])

    def make_noise(self, files: int) -> None:
        """Draw noise of the fitted families; the next rink says what the lesson's own voices say."""
        parts = [(self.noise / f"{seed:03}.npz", seed, _sounds(self.speech)) for seed in range(files)]
        self._each(_noise, [part for part in parts if not part[0].exists()])

    def _each(self, act: Callable[[Part], None], parts: Sequence[Part]) -> None:
        with get_context("spawn").Pool(self._processes) as pool:
            for count, _ in enumerate(pool.imap_unordered(act, parts), 1):
                if count % 20 == 0:
                    self._tell(f"{count} of {len(parts)} files made")

    def teach(self, plan: Plan, name: str) -> None:
        """Give the lesson."""
        path = self._folder / f"{name}.mdl"
        if path.exists():
            return
        device = "cuda" if torch.cuda.is_available() else "cpu"
        torch.backends.cuda.matmul.allow_tf32 = True
        torch.manual_seed(plan.seed)
        speech, noise = Bank(self.speech, device), Bank(self.noise, device)
        speech.await_seconds(plan.enough_s)
        noise.reread()
        path.write_bytes(Lesson(original_model(), speech, noise, plan, device).give(self._tell))

    def pack(self, name: str, share: float) -> None:
        """Write what was learnt as the file that comes with the program, and say how to list it."""
        original = (original_model() / WEIGHTS).read_bytes()
        taught = mixed(original, (self._folder / f"{name}.mdl").read_bytes(), share)
        before, after = components(original), components(taught)
        moved, places = [], []
        for part, component in before.items():
            for which, weights in component.weights().items():
                if weights.values.size:
                    moved.append((after[part].arrays[which].values - weights.values).ravel())
                    places.append((weights.offset, weights.values.size))
        packed_ = packed(places, np.concatenate(moved).astype(np.float16))
        (self._folder / "outdoors.weights").write_bytes(packed_)
        for what, data in (("outdoors.weights", packed_), (WEIGHTS.as_posix(), laid_over(original, packed_))):
            self._tell(f"{what}: {len(data)} bytes, SHA-256 {hashlib.sha256(data).hexdigest()}")

    def models(self, name: str, shares: Sequence[float]) -> list[Path]:
        """The original, and its mixtures with what was taught; a share of 1 is the student as it is."""
        original, student = (
            (original_model() / WEIGHTS).read_bytes(),
            (self._folder / f"{name}.mdl").read_bytes(),
        )
        made = [with_weights(original_model(), original, self._folder / "models" / "original")]
        for share in shares:
            folder = self._folder / "models" / f"{name}-{share:g}"
            made.append(with_weights(original_model(), mixed(original, student, share), folder))
        return made

    def score(self, models: Sequence[Path], notes: int, talk: int, conditions: Sequence[Condition]) -> None:
        """Decode with every model: the tuning part chooses the share, the scored part is looked at last."""
        kept = self._made("heard")
        found = score(models, chosen("tuning", notes, talk), conditions, self._processes, kept)
        (self._folder / "scored.json").write_text(json.dumps([one.model_dump() for one in found]))
        for line in table(found):
            self._tell(line)


def _speak(part: tuple[list[speaking.Job], Path]) -> None:
    jobs, path = part
    keep(path, [speaking.spoken(job) for job in jobs])


def _noise(part: tuple[Path, int, list[Samples]]) -> None:
    path, seed, talk = part
    make_noise(path, NOISES, seed, talk)


def _sounds(folder: Path) -> list[Samples]:
    """The first sentences that were said."""
    for path in sorted(folder.glob("*[0-9].npz"))[:1]:
        file = np.load(path)
        whole = file["samples"].astype(np.float32) / 32_768
        return np.split(whole, np.cumsum(file["sizes"])[:-1])
    return []
