"""Teacher and student: the model as it came hears clean speech, and the student the same speech damaged.

The student learns to give the teacher's outputs. No words are needed for it.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import torch

from tests.bench.lesson import kaldi
from tests.bench.lesson.banks import Bank
from tests.bench.lesson.damage import between, damaged
from tests.bench.lesson.features import Ivectors, Mfcc, counted_frames
from tests.bench.lesson.network import CHUNK, Network, Tensor

_WARMS_UP = 100
"""Steps until the rate is at its full height."""
_AVERAGED = 0.998
"""How much of the running average of the weights stays at each step."""


@dataclass(frozen=True)
class Plan:
    """How a lesson is given."""

    seconds: float
    rate: float = 2e-4
    rows: int = 128
    seed: int = 24
    enough_s: float = 300.0
    """Speech that must be there before it begins."""


class Lesson:
    """One student, from the model as it came."""

    def __init__(self, model: Path, speech: Bank, noise: Bank, plan: Plan, device: str) -> None:
        self._plan, self._speech, self._noise = plan, speech, noise
        self._original = (model / kaldi.WEIGHTS).read_bytes()
        parts = kaldi.components(self._original)
        self._teacher, self._student = Network(parts, device), Network(parts, device)
        self._learnt = self._student.learn()
        self._average = [weight.detach().clone() for weight in self._learnt]
        self._mfcc = Mfcc(device)
        self._ivectors = Ivectors(kaldi.speaker_model(model / "ivector"), device)
        self._device = device

    def give(self, tell: Callable[[str], None]) -> bytes:
        """Teach for the planned time; give the student's model, its weights averaged over the last steps."""
        optimiser = torch.optim.AdamW(self._learnt, lr=self._plan.rate, betas=(0.9, 0.98), weight_decay=0.0)
        began = looked = time.monotonic()
        step, loss = 0, torch.zeros(4, device=self._device)
        while (gone := (time.monotonic() - began) / self._plan.seconds) < 1:
            for group in optimiser.param_groups:
                group["lr"] = self._rate(step, gone)
            parts = self._step(optimiser)
            step += 1
            loss = torch.lerp(loss, parts, max(0.02, 1 / step))
            self._take_average(min(_AVERAGED, step / (step + 10)))
            if time.monotonic() - looked > 20:
                looked = time.monotonic()
                self._speech.reread()
                figures = " ".join(f"{float(one):.3f}" for one in loss)
                tell(f"{looked - began:.0f} s, step {step}, {self._speech.seconds / 60:.0f} min: {figures}")
        for weight, average in zip(self._learnt, self._average, strict=True):
            weight.data.copy_(average)
        return kaldi.written(self._original, self._student.arrays())

    def _rate(self, step: int, gone: float) -> float:
        falling = 0.02 + 0.98 * 0.5 * (1 + math.cos(math.pi * gone))
        return self._plan.rate * min(1.0, (step + 1) / _WARMS_UP) * falling

    def _step(self, optimiser: torch.optim.AdamW) -> Tensor:
        with torch.no_grad():
            rows = self._plan.rows
            clean = self._speech.speech(rows) * 10 ** (between(rows, -3, 3, self._device) / 20)
            wanted = self._taught(clean)
            cepstra = self._mfcc(damaged(clean, self._noise.noise(rows)))
            ivectors = self._students_ivectors(cepstra)
        parts = _losses(self._student(cepstra, ivectors), wanted)
        optimiser.zero_grad(set_to_none=True)
        (parts * torch.tensor([1.0, 0.5, 0.25, 0.5], device=self._device)).sum().backward()
        torch.nn.utils.clip_grad_norm_(self._learnt, 5.0)
        optimiser.step()
        return parts.detach()

    def _taught(self, clean: Tensor) -> tuple[Tensor, Tensor]:
        cepstra = self._mfcc(clean)
        return self._teacher(cepstra, self._ivectors(cepstra, self._counted(self._teacher, cepstra)))

    def _students_ivectors(self, cepstra: Tensor) -> Tensor:
        """As the decoder would weigh the frames by the student's own outputs, or all alike; sometimes none.

        Weighed by the teacher's silence they would tell where the speech is, which nobody does on a green.
        """
        rows = len(cepstra)
        own = self._counted(self._student, cepstra)
        alike = torch.rand(rows, 1, 1, device=self._device) < 0.25
        found = self._ivectors(cepstra, torch.where(alike, 1.0, own))
        none = torch.rand(rows, 1, 1, device=self._device) < 0.1
        return torch.where(none, 0.0, found)

    def _counted(self, network: Network, cepstra: Tensor) -> Tensor:
        chunks = (cepstra.shape[1] + CHUNK - 1) // CHUNK
        nothing = torch.zeros(len(cepstra), chunks, 30, device=self._device)
        return counted_frames(network(cepstra, nothing)[0], chunks)

    def _take_average(self, stays: float) -> None:
        with torch.no_grad():
            for average, weight in zip(self._average, self._learnt, strict=True):
                average.lerp_(weight, 1 - stays)


def _losses(found: tuple[Tensor, Tensor], wanted: tuple[Tensor, Tensor]) -> Tensor:
    """Four ways to be unlike the teacher.

    The divergence of the second branch; of the decoded outputs, which softmaxed are nearly flat, the squared
    error about their mean, the same where either finds an output likely, and the divergence sharpened.
    """
    chain, log_likely = found
    taught, log_taught = wanted
    likely = log_taught.exp()
    divergence = (likely * (log_taught - log_likely)).sum(-1).mean()
    own, his = (one - one.mean(-1, keepdim=True) for one in (chain, taught))
    error = (own - his) ** 2
    where = ((likely + log_likely.detach().exp()) * error).sum(-1).mean()
    sharp, his_sharp = torch.log_softmax(2 * own, -1), torch.log_softmax(2 * his, -1)
    sharpened = (his_sharp.exp() * (his_sharp - sharp)).sum(-1).mean()
    return torch.stack([divergence, error.mean(), where, sharpened])
