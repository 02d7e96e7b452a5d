"""The lines of the hearing bench mean what they say they mean, before anyone has spoken them."""

import re

import pytest

from tests.bench.hearing.lines import Line, Part, lines
from tests.bench.hearing.truth import means
from voicecoach import phrasebook
from voicecoach.hear.values import Heard
from voicecoach.understand.reading import Understanding
from voicecoach.understand.values import Expected, Ranked


def typed(line: Line) -> Ranked | None:
    words = re.sub(r"[,.?]", "", line.text.lower())
    read = Understanding(phrasebook.load()).read(Heard(text=words), Expected())
    return read if isinstance(read, Ranked) else None


@pytest.mark.parametrize("part", ["tuning", "scored"])
def test_each_note_of_the_corpus_typed_is_the_note_it_is_scored_against(part: Part) -> None:
    understood = [(line, typed(line)) for line in lines(part, 60, 0, seed=8)]
    assert [
        line.text for line, read in understood if read is None or not means(read.notes[0], line.meaning)
    ] == []


@pytest.mark.parametrize("part", ["tuning", "scored"])
def test_no_chatter_of_the_corpus_typed_is_a_note(part: Part) -> None:
    assert [line.text for line in lines(part, 0, 30, seed=8) if typed(line)] == []


def test_what_is_tuned_on_is_never_scored() -> None:
    tuning, scored = (
        {(line.form, re.sub(r"\d", "", line.text)) for line in lines(part, 0, 60, 1)}
        for part in ("tuning", "scored")
    )
    assert not tuning & scored


def test_the_same_seed_gives_the_same_lines() -> None:
    assert lines("scored", 30, 10, 4) == lines("scored", 30, 10, 4)
