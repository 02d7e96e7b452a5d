"""A folder of sound kept with consent, scored: python -m tests.bench.hearing.kept FOLDER.

A human has written beside each WAV what was really said and meant (`NAME.truth.yaml`, see
`voicecoach/guide/kept-sound.md`). The first rows say what came of it on the green; the others what comes of
it when the program as it is now hears the same sound again, by itself: answers to questions are left out.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import click
import numpy as np
import yaml
from pydantic import ValidationError

from tests.bench.hearing.outcomes import Outcome, Verdict, judge
from tests.bench.hearing.table import Result, grouped, line
from tests.bench.hearing.trials import Trial
from tests.bench.hearing.truth import means
from voicecoach import phrasebook
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.recordings import blocks
from voicecoach.live.sound_folder import KeptSound, read
from voicecoach.model_store import model_path
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Expected
from voicecoach.value import Value

TRUTH = ".truth.yaml"


class Truth(Value):
    """What was really said, as whoever was there wrote it down."""

    text: str
    meaning: dict[str, Any] | None
    """Fields of the note as the bench's own templates have them; None for talk."""


class Kept(Value):
    """One sound with its truth."""

    path: Path
    told: KeptSound
    truth: Truth


def kept(folder: Path) -> Iterator[Kept]:
    """Every sound with its truth; says which have none, and which can't be read."""
    for path in sorted(folder.glob("*.json")):
        truth = path.with_suffix(TRUTH)
        if not truth.is_file():
            print(f"  passed over, nothing beside it says what was said: {path.with_suffix('.wav').name}")
            continue
        try:
            written = Truth.model_validate(yaml.safe_load(truth.read_text(encoding="utf-8")))
            yield Kept(path=path.with_suffix(".wav"), told=read(path), truth=written)
        except (ValidationError, yaml.YAMLError) as problem:
            raise click.ClickException(
                f"{truth.name} or {path.name} isn't as it should be: {problem}"
            ) from None


def on_the_green(one: Kept) -> Result:
    """What came of it when it was said."""
    told, meaning = one.told, one.truth.meaning
    came: dict[str, Outcome] = {"asked": "asked", "refused": "unclear", "dropped": "dropped"}
    outcome: Outcome = came.get(told.outcome, "dropped")
    if told.outcome in ("noted", "answered"):
        outcome = "right" if told.note is not None and means(told.note, meaning) else "wrong"
    return Result(trial=_trial(one, (told.heard,)), verdict=Verdict(outcome=outcome))


class Again:
    """Hears them again with the program as it is now."""

    def __init__(self) -> None:
        book = phrasebook.load()
        self._understanding = Understanding(book)
        whole = self._understanding
        self._ear = Ear(Recogniser(model_path(), book), lambda text: whole.is_final(text, Expected()))

    def hear(self, one: Kept) -> Result:
        """What comes of it now."""
        trial = _trial(one, tuple(self._ear.listen(blocks(one.path), "bench")))
        return Result(trial=trial, verdict=judge(self._understanding, trial))


def _trial(one: Kept, heard: tuple[Any, ...]) -> Trial:
    return Trial(
        clip=one.path.name,
        voice=one.told.speaker,
        natural=True,
        form="chatter" if one.truth.meaning is None else "free",
        text=one.truth.text,
        condition="on the green",
        meaning=one.truth.meaning,
        heard=heard,
        late_s=(),
        sound_s=one.told.seconds,
        work_s=0.0,
    )


@click.command()
@click.argument("folder", type=click.Path(exists=True, file_okay=False, path_type=Path))
def main(folder: Path) -> None:
    """Score a folder of kept sound, in plain lines."""
    every = list(kept(folder))
    if not every:
        raise click.ClickException(f"No sound in {folder} has its truth beside it: NAME{TRUTH}.")
    print("\n".join(grouped("as it was, by speaker", map(on_the_green, every), lambda one: one.trial.voice)))
    again = Again()
    alone = [one for one in every if one.told.answering is None]
    now = [again.hear(one) for one in alone]
    print(line("heard again", now))
    for one in now:
        if one.trial.meaning is not None and one.verdict.outcome != "right":
            words = " / ".join(heard.text for heard in one.trial.heard)
            print(f"  {one.trial.clip}: {one.verdict.outcome}: {one.trial.text!r} heard as {words!r}")


if __name__ == "__main__":
    np.seterr(all="raise", under="ignore")
    main()
