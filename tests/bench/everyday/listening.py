"""Lets the ear hear the clips; what was heard is kept, so that a run that was cut off goes on."""

from __future__ import annotations

import json
import random
from collections.abc import Iterator, Sequence
from pathlib import Path

from tests.bench.everyday import sets
from tests.bench.hearing.corpus import Clip
from tests.bench.hearing.lines import Part
from tests.bench.hearing.places import RESULTS
from tests.bench.hearing.trials import Listener, Trial, read_trials, trial_key
from voicecoach import phrasebook
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.model_store import model_path
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Expected

_TALKERS = 20


def kept(part: Part) -> list[tuple[Clip, Trial]]:
    """Only what has been heard before."""
    clips = {trial_key(clip): clip for clip in sets.clips(part)}
    return [(clips[trial.clip], trial) for trial in read_trials(_file(part)) if trial.clip in clips]


def _file(part: Part) -> Path:
    return RESULTS / "everyday" / f"{part}.jsonl"


def heard(part: Part, clips: Sequence[Clip]) -> Iterator[tuple[Clip, Trial]]:
    """What the ear made of each clip, under each of its conditions."""
    book = phrasebook.load()
    understanding = Understanding(book)
    ear = Ear(Recogniser(model_path(), book), lambda text: understanding.is_final(text, Expected()))
    talk = [clip.sound() for clip in clips if clip.line.meaning is None][:_TALKERS]
    listener = Listener(ear, talk)
    shuffled = random.Random(1).sample(list(clips), len(clips))  # so that a part of them is like the whole
    pairs = [(clip, condition) for clip in shuffled for condition in sets.conditions(clip)]
    file_of = _file(part)
    file_of.parent.mkdir(parents=True, exist_ok=True)
    before = {(trial.clip, trial.condition): trial for trial in read_trials(file_of)}
    with file_of.open("a", encoding="utf-8") as file:
        for clip, condition in pairs:
            trial = before.get((trial_key(clip), condition))
            if trial is None:
                trial = listener.listen(clip, condition)
                file.write(json.dumps(trial.model_dump()) + "\n")
                file.flush()
            yield clip, trial
