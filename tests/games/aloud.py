"""A game told by voice: every step spoken, heard by the real recogniser, and gone through like the typed one.

Each game has a file of its own, so that workers share them.
"""

import csv
from pathlib import Path
from typing import Any

import pytest

from tests.games.going_through import GoneThrough, last_head
from tests.games.telling import Game, replayed, run
from voicecoach.commands import export, practice, walk
from voicecoach.describe.distances import as_called
from voicecoach.phrasebook.numbers import cardinal, ordinal

OF_THE_TELLING = ("journal", "at", "heard")
"""The columns of an export in which a heard game and a typed one differ."""


def table(game: Game, folder: Path) -> list[dict[str, str]]:
    """The rows of a game's export, without what is of its telling alone."""
    path = folder / "game.csv"
    run(export.command, game.journal, "-o", path)
    rows = list(csv.DictReader(path.read_text(encoding="utf-8").splitlines()))
    return [{name: row[name] for name in row if name not in OF_THE_TELLING} for row in rows]


def said_back(head: dict[str, Any]) -> list[str]:
    """The bowls of a head that are not dead, each in one sentence, to the centimetre."""
    lies = [bowl for bowl in head["bowls"] if bowl["state"] != "dead"]
    return [
        f"{'our' if lie['side'] == 'ours' else 'their'} {ordinal(lie['number'])}, "
        f"{as_called(round(lie['gap_m'], 2), 'm', 0.121)}, {cardinal(round(lie['hour_exact']) or 12)} o'clock"
        for lie in lies
    ]


class ToldAloud(GoneThrough):
    """What holds for the game that a module tells by voice, in the fixture `heard`."""

    @pytest.fixture
    def game(self, heard: Game) -> Game:
        """The game that is gone through."""
        return heard

    def test_each_step_is_heard_as_one_utterance_and_comes_to_what_it_came_to_typed(
        self, game: Game, typed: Game
    ) -> None:
        assert [Path(turn["source"]).stem for turn in game.turns] == [
            f"{number:02}" for number in range(1, len(typed.turns) + 1)
        ]
        for aloud, turn in zip(game.turns, typed.turns, strict=True):
            for what in ("outcome", "say", "head"):
                assert aloud[what] == turn[what], (turn["heard"], aloud["heard"], what)

    def test_the_export_of_what_was_heard_is_that_of_what_was_typed(
        self, game: Game, typed: Game, tmp_path: Path
    ) -> None:
        assert table(game, tmp_path) == table(typed, tmp_path)

    def test_every_end_is_read_back_and_walked_to_as_if_it_had_been_typed(
        self, game: Game, typed: Game
    ) -> None:
        for end in game.ends:
            assert replayed(game, "--end", end) == replayed(typed, "--end", end)
            walks = [run(walk.command, each.journal, "--end", end, "--json") for each in (game, typed)]
            assert walks[0] == walks[1]

    def test_the_journal_keeps_nothing_of_talk_and_no_sound(self, game: Game) -> None:
        kept = game.journal.read_text(encoding="utf-8")
        for step in game.story.steps:
            if step.outcome == "dropped":
                assert step.say not in kept
        assert game.journal.stat().st_size < 1e6

    def test_the_head_just_played_is_pictured_and_said_back(
        self, game: Game, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
        said = said_back(last_head(game, game.ends[-1]))
        order = ("picturing", "--journal", game.journal, "--back", "--silent")
        printed = run(practice.command, *order, said=said)
        points = cardinal(3 * len(said))
        assert f"{points} of {points} right." in printed.lower(), printed
