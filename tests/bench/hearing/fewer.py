"""What fewer decodes cost in right answers: python -m tests.bench.hearing.fewer.

Each clip is heard once, by all decodes; then it is decided with the readings of all, and of fewer and fewer.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import click

from tests.bench.hearing.__main__ import Bench
from tests.bench.hearing.noise import CONDITIONS, Condition
from tests.bench.hearing.outcomes import Outcome, judge
from tests.bench.hearing.trials import Trial
from voicecoach.hear.decodes import MOST, NAMES
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.model_store import model_path
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Expected


def with_decodes(trial: Trial, count: int) -> Trial:
    """The trial as it would be if only so many decodes had listened."""
    kept = NAMES[:count]
    heard = (
        one.model_copy(update={"readings": tuple(each for each in one.readings if each.decode in kept)})
        for one in trial.heard
    )
    return trial.model_copy(update={"heard": tuple(heard)})


def outcomes(understanding: Understanding, trials: Sequence[Trial], count: int) -> Counter[Outcome]:
    """How often each outcome came, with so many decodes."""
    return Counter(judge(understanding, with_decodes(trial, count)).outcome for trial in trials)


def line(condition: str, count: int, notes: Counter[Outcome], talk: Counter[Outcome]) -> str:
    """The table's line for one condition."""
    said = max(1, notes.total())
    shares = [f"{100 * notes[each] / said:.1f} %" for each in ("right", "wrong")]
    asked = 100 * (notes["asked"] + notes["unclear"]) / said
    filed, wondered = talk["right"] + talk["wrong"], talk["asked"] + talk["unclear"]
    columns = [
        f"{condition}, {notes.total()} notes",
        str(count),
        *shares,
        f"{asked:.1f} %",
        f"{100 * notes['dropped'] / said:.1f} %",
        f"{filed} filed, {wondered} asked about, of {talk.total()}",
    ]
    return f"| {' | '.join(columns)} |"


@click.command()
@click.option("--part", type=click.Choice(["tuning", "scored"]), default="scored", show_default=True)
@click.option("--notes", default=200, show_default=True, help="At most so many notes.")
@click.option("--condition", multiple=True, type=click.Choice(CONDITIONS), help="Only these conditions.")
@click.option("--as-spoken", is_flag=True, help="Only what has been spoken before.")
def main(part: str, notes: int, condition: tuple[Condition, ...], *, as_spoken: bool) -> None:
    """Print the table; the corpus of `make bench-hearing`, its natural-sounding voices."""
    bench = Bench(part, notes, as_spoken=as_spoken)
    ear = Ear(
        Recogniser(model_path(), bench.book),
        lambda text: bench.understanding.is_final(text, Expected()),
    )
    clips = [clip for clip in bench.clips if clip.voice.natural]
    print("| | decodes | right at once | wrong | asked | dropped | talk |\n|---|---|---|---|---|---|---|")
    for each in condition or ("clean", "outdoors 10 dB"):
        trials = bench.heard("this program", ear, each, clips)
        notes_said = [trial for trial in trials if trial.meaning is not None]
        talk = [trial for trial in trials if trial.meaning is None]
        for count in range(MOST, 0, -1):
            found = [outcomes(bench.understanding, some, count) for some in (notes_said, talk)]
            print(line(each, count, *found), flush=True)


if __name__ == "__main__":
    main()
