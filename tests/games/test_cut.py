"""An end cut out of a game runs again alone, by what held before it."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from voicecoach.commands import replay
from voicecoach.conversation import Conversation
from voicecoach.hear.values import Heard
from voicecoach.session.view import BowlLine, head_line
from voicecoach.story import read_story

END_ONE = ("they lead", "a metre at three", "the end is finished, one shot to us", "next end")


def told(journal: Path, *notes: str) -> tuple[BowlLine, ...]:
    with Conversation(journal) as conversation:
        for note in notes:
            assert conversation.hear(Heard(text=note)).outcome == "noted", note
        return head_line(conversation.picture()).bowls


def cut_and_told_again(journal: Path) -> tuple[BowlLine, ...]:
    cut = journal.with_suffix(".yaml")
    ran = CliRunner().invoke(replay.command, [str(journal), "--story", str(cut)], standalone_mode=False)
    assert ran.exception is None
    return told(journal.with_name("again.jsonl"), *(step.say for step in read_story(cut).steps))


@pytest.mark.parametrize("score", ["one shot to us", "one shot to them", "no score"])
def test_a_bowl_without_an_owner_goes_to_the_side_that_led_that_end(tmp_path: Path, score: str) -> None:
    first = (*END_ONE[:2], f"the end is finished, {score}", "next end")
    bowls = told(tmp_path / "game.jsonl", *first, "a metre at three", "half a metre at nine")
    assert cut_and_told_again(tmp_path / "game.jsonl") == bowls


def test_the_caller_still_stands_at_the_head(tmp_path: Path) -> None:
    bowls = told(
        tmp_path / "game.jsonl", "I'm at the head, facing the mat", *END_ONE, "ours a metre at three"
    )
    assert bowls[0].hour == 9
    assert cut_and_told_again(tmp_path / "game.jsonl") == bowls
