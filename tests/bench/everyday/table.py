"""What comes of the scored part, in a line for each kind of saying and condition."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from statistics import mean

from tests.bench.everyday.seconds import seconds
from tests.bench.hearing.outcomes import After, Verdict
from tests.bench.hearing.trials import Trial
from voicecoach.value import Value


class Came(Value):
    """One trial, what came of it, and what was filed after one question."""

    trial: Trial
    verdict: Verdict
    after: After | None = None


def kind(came: Came) -> str:
    """Notes as in the main bench, loose wordings, what is asked, or talk."""
    if came.trial.meaning is None:
        return "talk"
    return {"plain": "notes", "free": "notes"}.get(came.trial.form, came.trial.form)


def lines(every: Sequence[Came]) -> Iterator[str]:
    """A line for each voice's kind, kind of saying, and condition."""
    for natural in (True, False):
        for group in ("notes", "everyday", "asked", "talk"):
            here = [one for one in every if one.trial.natural == natural and kind(one) == group]
            for condition in sorted({one.trial.condition for one in here}):
                those = [one for one in here if one.trial.condition == condition]
                voices = "natural" if natural else "robotic"
                yield f"{voices:8s}{group:9s}{condition:14s}{_line(those, talk=group == 'talk')}"


def _line(those: Sequence[Came], *, talk: bool) -> str:
    count = len(those)

    def share(is_so: Callable[[Came], bool]) -> str:
        return f"{100 * sum(map(is_so, those)) / count:5.1f} %"

    asked = share(lambda one: one.verdict.outcome in ("asked", "unclear"))
    if talk:
        filed = share(lambda one: one.verdict.outcome in ("right", "wrong"))
        return f"{count:5d} stretches: filed {filed}, asked about {asked}"
    right = share(lambda one: one.verdict.outcome == "right")
    wrong = share(lambda one: one.verdict.outcome == "wrong")
    dropped = share(lambda one: one.verdict.outcome == "dropped")
    after = share(lambda one: "right" in (one.verdict.outcome, one.after))
    took = mean(seconds(one.trial, one.verdict, one.after) for one in those)
    return (
        f"{count:5d}: right {right}, wrong {wrong}, asked {asked}, dropped {dropped}, "
        f"right after one question {after}, {took:.2f} s to the right note"
    )


def calibration(every: Sequence[Came], steps: int = 10) -> float:
    """The mean gap between the belief in the likeliest meaning and how often it was right.

    The expected calibration error of Guo et al., "On calibration of modern neural networks", 2017 (from
    memory), in ten steps.
    """
    sure = [one for one in every if one.verdict.probability > 0 and one.trial.meaning is not None]
    error = 0.0
    for step in range(steps):
        here = [one for one in sure if step / steps < one.verdict.probability <= (step + 1) / steps]
        if here:
            believed = mean(one.verdict.probability for one in here)
            right = mean(float(one.verdict.likeliest_right) for one in here)
            error += abs(believed - right) * len(here) / len(sure)
    return error
