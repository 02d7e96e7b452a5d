"""What several models make of the same clips, decoded by the recogniser itself: the loss deceives.

`python -m tests.bench.lesson.scoring FOLDER --model A --model B` compares models on the scored part.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from multiprocessing import get_context
from pathlib import Path
from typing import get_args

import click

from tests.bench.hearing.corpus import Clip, clips
from tests.bench.hearing.lines import Part
from tests.bench.hearing.noise import CONDITIONS, Condition
from tests.bench.hearing.outcomes import judge
from tests.bench.hearing.trials import Listener, Trial
from tests.bench.lesson.kaldi import WEIGHTS
from tests.bench.lesson.words import edits, plain_words
from voicecoach import phrasebook
from voicecoach.hear.blocks import Samples
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Expected
from voicecoach.value import Value


class Scored(Value):
    """What came of one clip under one condition."""

    model: str
    condition: str
    clip: str
    natural: bool
    talk: bool
    outcome: str
    """Right, wrong, asked, unclear or dropped; of talk, anything but dropped is something said or done."""
    likely_right: bool
    words_wrong: int
    """Words of the main decode that would have to be put right."""
    words: int
    above_noise_db: float | None


def with_weights(model: Path, weights: bytes, folder: Path) -> Path:
    """A model whose acoustic weights are these and whose other files are the given model's."""
    folder.mkdir(parents=True, exist_ok=True)
    for entry in model.iterdir():
        if entry.name != WEIGHTS.parts[0] and not (folder / entry.name).exists():
            (folder / entry.name).symlink_to(entry.resolve())
    (folder / WEIGHTS).parent.mkdir(exist_ok=True)
    (folder / WEIGHTS).write_bytes(weights)
    return folder


def chosen(part: Part, notes: int, talk: int, *, natural: bool = True) -> list[Clip]:
    """So many spoken notes and stretches of talk of a part, in the corpus's own mixed order."""
    spoken = [clip for clip in clips() if clip.voice.part == part and clip.voice.natural == natural]
    spoken = list({clip.path: clip for clip in spoken if clip.path.exists()}.values())
    said = [clip for clip in spoken if clip.line.meaning is not None]
    return said[:notes] + [clip for clip in spoken if clip.line.meaning is None][:talk]


def score(
    models: Sequence[Path],
    wanted: Sequence[Clip],
    conditions: Sequence[Condition],
    processes: int,
    kept: Path,
) -> list[Scored]:
    """Hear every clip with every model under every condition; what was heard is kept in the folder."""
    shares = max(1, processes // len(models))
    work = [
        (model, list(wanted[share::shares]), list(wanted), list(conditions), kept / f"{model.name}-{share}")
        for model in models
        for share in range(shares)
    ]
    with get_context("spawn").Pool(len(work)) as pool:
        return [one for found in pool.imap_unordered(_heard, work) for one in found]


def _heard(work: tuple[Path, list[Clip], list[Clip], list[Condition], Path]) -> list[Scored]:
    model, share, wanted, conditions, kept = work
    book = phrasebook.load()
    understanding = Understanding(book)
    ear = Ear(Recogniser(model, book), lambda text: understanding.is_final(text, Expected()))
    listener = Listener(ear, _talk(wanted))
    found = []
    for condition in conditions:
        trials = listener.run(
            share, condition, kept.with_name(f"{kept.name}-{condition.replace(' ', '-')}.jsonl")
        )
        found += [_scored(model.name, trial, understanding) for trial in trials]
    return found


def _talk(wanted: Sequence[Clip]) -> list[Samples]:
    """Twenty stretches of other people's talk; every model and process has the same."""
    return [clip.sound() for clip in wanted if clip.line.meaning is None][:20]


def _scored(model: str, trial: Trial, understanding: Understanding) -> Scored:
    verdict = judge(understanding, trial)
    said = plain_words(trial.text)
    heard = plain_words(" ".join(one.text for one in trial.heard))
    return Scored(
        model=model,
        condition=trial.condition,
        clip=trial.clip,
        natural=trial.natural,
        talk=trial.meaning is None,
        outcome=verdict.outcome,
        likely_right=verdict.likeliest_right,
        words_wrong=edits(said, heard),
        words=len(said),
        above_noise_db=trial.heard[0].above_noise_db if trial.heard else None,
    )


def table(scored: Sequence[Scored]) -> Iterator[str]:
    """One line for each condition and model: notes, then talk."""
    for condition in dict.fromkeys(one.condition for one in scored):
        for model in sorted({one.model for one in scored}):
            mine = [one for one in scored if (one.condition, one.model) == (condition, model)]
            notes, talk = [one for one in mine if not one.talk], [one for one in mine if one.talk]
            if not mine:
                continue
            counts = {name: sum(one.outcome == name for one in notes) for name in _OUTCOMES}
            wrong_words = sum(one.words_wrong for one in notes) / max(1, sum(one.words for one in notes))
            exact = sum(one.words_wrong == 0 for one in notes)
            filed = sum(one.outcome in ("right", "wrong") for one in talk)
            asked = sum(one.outcome in ("asked", "unclear") for one in talk)
            yield (
                f"{condition:16} {model:16} {len(notes):4} notes: "
                + " ".join(f"{name} {count}" for name, count in counts.items())
                + f"; words wrong {100 * wrong_words:.1f} %, word for word {exact}"
                + f"; of {len(talk)} talk filed {filed}, asked {asked}"
            )


_OUTCOMES = ("right", "wrong", "asked", "unclear", "dropped")


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--model", "models", multiple=True, required=True, type=click.Path(path_type=Path))
@click.option("--part", type=click.Choice(get_args(Part)), default="scored", show_default=True)
@click.option("--natural/--robotic", default=True, show_default=True)
@click.option("--notes", default=190, show_default=True)
@click.option("--talk", default=60, show_default=True)
@click.option("--condition", "conditions", multiple=True, type=click.Choice(CONDITIONS), default=CONDITIONS)
@click.option("--processes", default=16, show_default=True)
def main(
    folder: Path,
    models: tuple[Path, ...],
    part: Part,
    natural: bool,
    notes: int,
    talk: int,
    conditions: tuple[Condition, ...],
    processes: int,
) -> None:
    """Hear the same clips with several models; what was heard is kept in the folder."""
    folder.mkdir(parents=True, exist_ok=True)
    wanted = chosen(part, notes, talk, natural=natural)
    for line in table(score(models, wanted, conditions, processes, folder)):
        print(line)


if __name__ == "__main__":
    main()
