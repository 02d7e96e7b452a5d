"""Teach the speech model noise: python -m tests.bench.lesson FOLDER. Each step is left out once it is done.

It needs what the voices of the hearing bench need, `pip install voicecoach[lesson]` and a graphics
processor: on one of the fastest, with sixteen cores beside it, half an hour; without one, days.
`--step speak` may go on in one process while another has `--step teach`, which takes what is there by then.
"""

from __future__ import annotations

from pathlib import Path

import click

from tests.bench.hearing.noise import CONDITIONS, Condition
from tests.bench.lesson.teaching import Plan
from tests.bench.lesson.work import NOISES, Work

STEPS = ("plan", "speak", "noise", "teach", "score", "pack")


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--step", "steps", multiple=True, type=click.Choice(STEPS), default=STEPS, help="Only these.")
@click.option("--sentences", default=3_000, show_default=True)
@click.option("--noises", default=16, show_default=True, help=f"Files of {NOISES} rows of noise.")
@click.option("--seconds", default=245.0, show_default=True, help="How long the student is taught.")
@click.option("--rate", default=3e-4, show_default=True)
@click.option("--name", default="student", show_default=True)
@click.option("--share", "shares", multiple=True, type=float, default=(0.5,), show_default=True)
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
    """Plan, speak, make noise, teach, score, and pack the first share's weights for the program."""
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
    if "pack" in steps:
        work.pack(name, shares[0])


if __name__ == "__main__":
    main()
