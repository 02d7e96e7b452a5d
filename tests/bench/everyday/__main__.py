"""How well everyday sayings, questions and commands are heard, and how long the right note takes."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

import click
import numpy as np

from tests.bench.everyday import listening, sets, table
from tests.bench.everyday.table import Came
from tests.bench.hearing.corpus import Clip
from tests.bench.hearing.lines import Part
from tests.bench.hearing.outcomes import answered, judge
from tests.bench.hearing.replies import Replies
from tests.bench.hearing.trials import Trial
from voicecoach import phrasebook
from voicecoach.hear.recogniser import Recogniser
from voicecoach.model_store import model_path
from voicecoach.understand.reading import Understanding


@click.command()
@click.option("--part", type=click.Choice(["tuning", "scored"]), default="scored", show_default=True)
@click.option("--as-heard", is_flag=True, help="Only what has been heard before: all of it takes hours.")
def main(part: Part, *, as_heard: bool) -> None:
    """Speak and hear what wasn't yet, answer each question truthfully once, and print the table."""
    pairs = listening.kept(part) if as_heard else list(listening.heard(part, sets.speak(part)))
    every = list(_came(pairs))
    print("\n".join(table.lines(every)))
    for condition in sorted({one.trial.condition for one in every}):
        here = [one for one in every if one.trial.condition == condition]
        print(f"{condition}: calibration error {table.calibration(here):.3f}")


def _came(pairs: list[tuple[Clip, Trial]]) -> Iterator[Came]:
    book = phrasebook.load()
    understanding, recogniser = Understanding(book), Recogniser(model_path(), book)
    talk = [clip.sound() for clip, trial in pairs if trial.meaning is None][:20]
    replies: dict[str, Replies] = {
        condition: Replies(recogniser, condition, talk)
        for condition in {*sets.TUNED_UNDER, *sets.SCORED_UNDER}
    }
    for clip, trial in pairs:
        verdict = judge(understanding, trial)
        after = None
        if trial.meaning is not None:
            hear = partial(replies[trial.condition].hear, clip)
            after = answered(understanding, trial, verdict, hear)
        yield Came(trial=trial, verdict=verdict, after=after)


if __name__ == "__main__":
    np.seterr(all="raise", under="ignore")
    main()
