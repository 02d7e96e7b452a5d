"""The bench's sentences about the player's lines, typed: the phrase book means what they mean."""

import pytest

from tests.bench.hearing.asked import came_of, said
from tests.bench.hearing.lines import Line
from tests.understand.reads import UNDERSTANDING
from voicecoach.hear.values import Heard


@pytest.mark.parametrize("line", [*said("tuning"), *said("scored")], ids=lambda line: line.text)
def test_a_sentence_of_the_bench_is_read_as_it_is_meant(line: Line) -> None:
    assert line.meaning is not None
    assert came_of(UNDERSTANDING, (Heard(text=line.text.rstrip("?.").lower()),), line.meaning) == "right"


def test_a_sentence_that_means_another_note_is_counted_as_wrong() -> None:
    forehand = {"kind": "line_asked", "ask": "hands", "hand": "forehand"}
    assert came_of(UNDERSTANDING, (Heard(text="is the backhand open"),), forehand) == "wrong"
    assert came_of(UNDERSTANDING, (Heard(text="what a lovely afternoon"),), forehand) == "dropped"


def test_no_sentence_is_tuned_on_and_scored() -> None:
    tuned, scored = ({line.text for line in said(part)} for part in ("tuning", "scored"))
    assert len(tuned) > 10
    assert len(scored) > 10
    assert not tuned & scored
