"""The everyday sayings of the bench mean what stands beside them, and what is tuned on is never scored."""

import random
import re

import pytest

from tests.bench.everyday import sets, table
from tests.bench.everyday.seconds import seconds
from tests.bench.everyday.table import Came
from tests.bench.hearing.lines import Part, everyday
from tests.bench.hearing.outcomes import Verdict
from tests.bench.hearing.trials import Trial
from tests.bench.hearing.truth import means
from tests.understand.reads import UNDERSTANDING
from voicecoach.hear.values import Heard
from voicecoach.understand.values import Expected, Ranked


@pytest.mark.parametrize("part", ["tuning", "scored"])
@pytest.mark.parametrize("section", ["notes", "asked"])
def test_every_everyday_saying_means_what_stands_beside_it(part: Part, section: str) -> None:
    for line in everyday(part, "notes" if section == "notes" else "asked", 60, 3):
        read = UNDERSTANDING.read(Heard(text=re.sub(r"[.,?]", "", line.text)), Expected())
        assert isinstance(read, Ranked), line.text
        assert means(read.notes[0], line.meaning), (line.text, read.notes[0])


def test_what_is_tuned_on_is_never_scored() -> None:
    tuning, scored = sets.clips("tuning"), sets.clips("scored")
    assert {clip.voice.key for clip in tuning}.isdisjoint(clip.voice.key for clip in scored)
    frames = [
        {_FILLED.sub("", clip.line.text) for clip in clips if clip.line.form == "everyday"}
        for clips in (tuning, scored)
    ]
    assert all(frames)
    assert frames[0].isdisjoint(frames[1])


_FILLED = re.compile(
    r"\b(our|their|my|ours|theirs|mine|first|second|third|fourth"
    r"|\w+ (metres?|feet|foot|yards?|inch|inches|centimetres))\b"
)
"""What is filled in by dice."""


def came(probability: float, *, right: bool, late_s: tuple[float, ...] = ()) -> Came:
    trial = Trial(
        clip="a",
        voice="v",
        natural=True,
        form="plain",
        text="ours, a metre, two o'clock.",
        condition="clean",
        meaning={"kind": "bowl_rested"},
        heard=(),
        late_s=late_s,
        sound_s=1.0,
        work_s=0.1,
    )
    return Came(
        trial=trial,
        verdict=Verdict(
            outcome="right" if right else "dropped", probability=probability, likeliest_right=right
        ),
    )


def test_the_calibration_error_is_worked_out_by_hand() -> None:
    """Ten notes believed 0.9, eight of them right: an error of 0.1; ten believed 0.5, five right: none."""
    every = [came(0.9, right=at < 8) for at in range(10)] + [came(0.5, right=at < 5) for at in range(10)]
    random.Random(1).shuffle(every)
    assert table.calibration(every) == pytest.approx(0.05)


def test_a_note_taken_at_once_takes_as_long_as_the_program_does() -> None:
    taken = came(0.9, right=True, late_s=(0.3, 0.4))
    assert seconds(taken.trial, taken.verdict, None) == 0.4, "from the end of speech to the last decision"
