"""Teach the speech model noise: python -m tests.bench.lesson FOLDER. Each step is left out once it is done.

It needs what the voices of the hearing bench need, PyTorch and a graphics processor: on one of the fastest it
takes a quarter of an hour with sixteen cores beside it, without one days.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from multiprocessing import get_context
from pathlib import Path
from typing import TypeVar

import click
import numpy as np
import torch

from tests.bench.hearing.noise import CONDITIONS, Condition
from tests.bench.lesson import speaking
from tests.bench.lesson.banks import Bank, keep, make_noise
from tests.bench.lesson.scoring import chosen, score, table, with_weights
from tests.bench.lesson.teaching import WEIGHTS, Lesson, Plan, mixed
from voicecoach.hear.blocks import Samples
from voicecoach.model_store import model_path

Part = TypeVar("Part")
STEPS = ("plan", "speak", "noise", "teach", "mix", "score")
_TOGETHER = 16
"""Sentences in one file: so soon can the lesson use them."""
_NOISES = 150
"""Rows of noise in one file."""


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
        path.write_bytes(Lesson(model_path(), speech, noise, plan, device).give(self._tell))

    def models(self, name: str, shares: Sequence[float]) -> list[Path]:
        """The original, and its mixtures with what was taught; a share of 1 is the student as it is."""
        original, student = (model_path() / WEIGHTS).read_bytes(), (self._folder / f"{name}.mdl").read_bytes()
        made = [with_weights(model_path(), original, self._folder / "models" / "original")]
        for share in shares:
            folder = self._folder / "models" / f"{name}-{share:g}"
            made.append(with_weights(model_path(), mixed(original, student, share), folder))
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
    make_noise(path, _NOISES, seed, talk)


def _sounds(folder: Path) -> list[Samples]:
    """The first sentences that were said."""
    for path in sorted(folder.glob("*[0-9].npz"))[:1]:
        file = np.load(path)
        whole = file["samples"].astype(np.float32) / 32_768
        return np.split(whole, np.cumsum(file["sizes"])[:-1])
    return []


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--step", "steps", multiple=True, type=click.Choice(STEPS), default=STEPS, help="Only these.")
@click.option("--sentences", default=3_000, show_default=True)
@click.option("--noises", default=16, show_default=True, help=f"Files of {_NOISES} rows of noise.")
@click.option("--seconds", default=500.0, show_default=True, help="How long the student is taught.")
@click.option("--rate", default=2e-4, show_default=True)
@click.option("--name", default="student", show_default=True)
@click.option("--share", "shares", multiple=True, type=float, default=(0.5, 0.75, 1.0), show_default=True)
@click.option("--notes", default=120, show_default=True)
@click.option("--talk", default=40, show_default=True)
@click.option("--condition", "conditions", multiple=True, type=click.Choice(CONDITIONS), default=CONDITIONS)
@click.option("--processes", default=16, show_default=True)
def main(
    folder: Path,
    steps: tuple[str, ...],
    sentences: int,
    noises: int,
    seconds: float,
    rate: float,
    name: str,
    shares: tuple[float, ...],
    notes: int,
    talk: int,
    conditions: tuple[Condition, ...],
    processes: int,
) -> None:
    """Speak, make noise, teach, mix and score, in this order."""
    work = Work(folder, processes, lambda line: print(line, flush=True))
    if "plan" in steps:
        work.plan(sentences)
    if "speak" in steps:
        work.speak()
    if "noise" in steps:
        work.make_noise(noises)
    if "teach" in steps:
        work.teach(Plan(seconds=seconds, rate=rate), name)
    if "score" in steps:
        work.score(work.models(name, shares), notes, talk, conditions)
    elif "mix" in steps:
        work.models(name, shares)


if __name__ == "__main__":
    main()
