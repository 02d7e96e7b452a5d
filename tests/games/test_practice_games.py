"""Practice on the heads in which the games end."""

from pathlib import Path

import pytest

from tests.games.telling import Game, run
from voicecoach.commands import practice
from voicecoach.describe.distances import as_called
from voicecoach.phrasebook.numbers import cardinal


@pytest.fixture(autouse=True)
def _home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A data folder of the test's own, for the results."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))


def calls(game: Game) -> list[str]:
    """The head called as it lies, bowl by bowl."""
    lies = [lying for lying in game.story.head if lying.gap_m is not None and lying.hour is not None]
    return [
        f"{as_called(round(lie.gap_m or 0.0, 2), 'm', 0.121)}, {cardinal(int(lie.hour or 12))} o'clock"
        for lie in lies
    ]


def test_a_head_called_as_it_lies_is_all_right(game: Game) -> None:
    said = calls(game)
    printed = run(practice.command, "calling", "--head", game.name, "--silent", said=said)
    assert printed.count("Distance right.") == len(said)
    assert printed.count("Hour right.") == len(said)


def test_a_bowl_called_on_the_wrong_side_is_said_to_be_wrong(game: Game) -> None:
    first = calls(game)[0].split(",")[0]
    printed = run(
        practice.command, "calling", "--head", game.name, "--silent", said=[f"{first}, twelve", "stop"]
    )
    assert "Hour right." not in printed


def test_the_questions_about_a_head_name_its_bowls_and_are_scored(game: Game) -> None:
    said = ["our first", "skip", "stop"]
    printed = run(practice.command, "picturing", "--head", game.name, "--silent", "--seed", "5", said=said)
    assert printed.splitlines()[0].startswith("Picturing practice")
    assert "Practice is over." in printed
