"""The first end of the windy game, from its recordings through the real recogniser."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.games.telling import Game, run
from voicecoach.commands import hear, replay
from voicecoach.places import scenarios

NAME = "windy_singles"


@pytest.fixture(scope="module")
def heard(
    games: dict[str, Game], model_path: Path, tmp_path_factory: pytest.TempPathFactory
) -> tuple[Path, list[dict[str, Any]]]:
    assert model_path.is_dir()
    journal = tmp_path_factory.mktemp("heard") / "end.jsonl"
    recordings = [scenarios() / NAME / step.audio for step in games[NAME].story.steps if step.audio]
    printed = run(hear.command, *recordings, "--json", "--journal", journal)
    return journal, [json.loads(line) for line in printed.splitlines()]


def test_what_is_heard_comes_to_the_same_head_and_score_as_what_is_typed(
    games: dict[str, Game], heard: tuple[Path, list[dict[str, Any]]]
) -> None:
    _, lines = heard
    typed = games[NAME].turns[: len(lines)]
    assert len(lines) == sum(step.audio is not None for step in games[NAME].story.steps)
    assert [line["outcome"] for line in lines] == [turn["outcome"] for turn in typed]
    assert [line["head"] for line in lines] == [turn["head"] for turn in typed]
    assert [line["say"] for line in lines] == [turn["say"] for turn in typed]


def test_the_heard_end_is_replayed_as_it_was(heard: tuple[Path, list[dict[str, Any]]]) -> None:
    journal, lines = heard
    assert json.loads(run(replay.command, journal, "--json"))["head"] == lines[-1]["head"]


def test_the_recordings_are_small() -> None:
    recordings = list((scenarios() / NAME).glob("*.wav"))
    assert len(recordings) <= 12
    assert sum(each.stat().st_size for each in recordings) < 1.5e6
