"""Counts and shares of what came of the trials, in plain lines."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from tests.bench.hearing.outcomes import After, Verdict
from tests.bench.hearing.trials import Trial
from voicecoach.value import Value


class Result(Value):
    """One trial and what came of it."""

    trial: Trial
    verdict: Verdict
    after: After | None = None
    """What the note was after one question had been answered; None where nothing was filed then."""
    caller_known: Verdict | None = None
    """What comes of a note once a session knows that this caller's "their" is heard as "your"."""


Key = Callable[[Result], str]
"""The group that a result belongs to."""


def line(name: str, results: Sequence[Result]) -> str:
    """One row of the table: notes, then chatter."""
    notes = [one for one in results if one.trial.meaning is not None]
    talk = [one for one in results if one.trial.meaning is None]
    parts = [f"{name}: {len(notes)} notes"]
    if notes:
        right = _count(notes, "right")
        after = right + sum(one.after == "right" for one in notes)
        asked = _count(notes, "asked") + _count(notes, "unclear")
        parts += [
            f"right at once {_share(right, notes)}",
            f"wrong {_share(_count(notes, 'wrong'), notes)}",
            f"asked {_share(asked, notes)}",
            f"dropped {_share(_count(notes, 'dropped'), notes)}",
            f"right after one question {_share(after, notes)}",
            f"wrong after one {_share(sum(one.after == 'wrong' for one in notes), notes)}",
        ]
    if talk:
        filed = _count(talk, "right") + _count(talk, "wrong")
        asked = _count(talk, "asked") + _count(talk, "unclear")
        parts.append(f"chatter {len(talk)}, filed {_share(filed, talk)}, asked about {_share(asked, talk)}")
    return ", ".join(parts)


def grouped(title: str, results: Iterable[Result], key: Key) -> list[str]:
    """A title and a row for each group."""
    groups = _by(key, results)
    return [title, *(f"  {line(name, groups[name])}" for name in sorted(groups))]


def once_known(results: Iterable[Result], key: Key) -> list[str]:
    """What is taken at once where the caller is known: a session asks about "your" twice at most."""
    known = (one.model_copy(update={"verdict": one.caller_known}) for one in results if one.caller_known)
    return [
        'once it is known that "their" is heard as "your": right at once, wrong',
        *(
            f"  {name}: {len(here)} notes, {_share(_count(here, 'right'), here)}, "
            f"{_share(_count(here, 'wrong'), here)}"
            for name, here in sorted(_by(key, known).items())
        ),
    ]


def timing(results: Sequence[Result]) -> str:
    """How late the decision comes, and what it costs."""
    late = sorted(one.trial.late_s[-1] for one in results if one.trial.meaning and one.trial.late_s)
    cost = sum(one.trial.work_s for one in results) / max(1e-9, sum(one.trial.sound_s for one in results))
    cut = sum(len(one.trial.heard) > 1 for one in results if one.trial.meaning is not None)
    if not late:
        return f"{cost:.2f} of real time on one core"
    return (
        f"{cost:.2f} of real time on one core; from the true end of speech to the decision "
        f"{late[len(late) // 2]:.2f} s in the median, {late[int(len(late) * 0.95)]:.2f} s for 95 %; "
        f"{cut} notes came in two pieces"
    )


def doubts(results: Iterable[Result], key: Key) -> list[str]:
    """What was in doubt in notes that were not taken at once, in each group: the most frequent first."""
    missed = (
        one
        for one in results
        if one.trial.meaning is not None and one.verdict.outcome in ("asked", "unclear", "dropped")
    )
    groups = _by(lambda one: f"{key(one)}, {_in_doubt(one.verdict)}", missed)
    lines = ["not taken at once, by what was in doubt: notes, likeliest right, right after one question"]
    for name, here in sorted(groups.items(), key=lambda group: -len(group[1])):
        likeliest = sum(one.verdict.likeliest_right for one in here)
        after = sum(one.after == "right" for one in here)
        lines.append(f"  {name}: {len(here)}, {likeliest}, {after}")
    return lines


def _in_doubt(verdict: Verdict) -> str:
    return str(verdict.question.slot) if verdict.question else verdict.outcome


def _by(key: Key, results: Iterable[Result]) -> dict[str, list[Result]]:
    groups: dict[str, list[Result]] = {}
    for one in results:
        groups.setdefault(key(one), []).append(one)
    return groups


def reliability(results: Sequence[Result], steps: int = 5) -> list[str]:
    """How often the likeliest meaning is right, by the program's own belief in it; and the mean error."""
    sure = [one for one in results if one.verdict.probability > 0 and one.trial.meaning is not None]
    lines, error = ["belief in the likeliest meaning, and how often it was right"], 0.0
    for step in range(steps):
        low, high = step / steps, (step + 1) / steps
        here = [one for one in sure if low < one.verdict.probability <= high]
        if here:
            believed = sum(one.verdict.probability for one in here) / len(here)
            right = sum(one.verdict.likeliest_right for one in here) / len(here)
            error += abs(believed - right) * len(here) / len(sure)
            lines.append(
                f"  {low:.1f} to {high:.1f}: {len(here)} notes, believed {believed:.2f}, right {right:.2f}"
            )
    return [*lines, f"  mean error {error:.3f}"]


def _count(results: Sequence[Result], outcome: str) -> int:
    return sum(one.verdict.outcome == outcome for one in results)


def _share(count: int, results: Sequence[Result]) -> str:
    return f"{100 * count / len(results):.1f} %"
