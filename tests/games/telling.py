"""The invented games of the scenarios, told into journals: as typed notes, or by voice."""

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any, NamedTuple

import click
from click.testing import CliRunner

from tests.games.speaking import recordings
from voicecoach.commands import hear, replay, tell
from voicecoach.places import scenarios
from voicecoach.story import Story, read_story


class Expected(NamedTuple):
    """What a game comes to, worked out by hand from its story."""

    ours: int
    theirs: int
    bowls: tuple[int, ...]
    """How many bowls were called in each end; of an end played again, those of the last time."""


GAMES = {
    "windy_singles": Expected(ours=1, theirs=1, bowls=(8, 8, 8)),
    "rainy_pairs": Expected(ours=6, theirs=0, bowls=(16, 6, 5)),
    "triples_in_feet": Expected(ours=1, theirs=0, bowls=(18, 8)),
}


class Game(NamedTuple):
    """A game that has been told."""

    name: str
    story: Story
    journal: Path
    turns: list[dict[str, Any]]
    """What `tell --json` or `hear --json` printed."""

    @property
    def expected(self) -> Expected:
        return GAMES[self.name]

    @property
    def ends(self) -> range:
        return range(1, len(self.expected.bowls) + 1)


def run(command: click.Command, *arguments: object, said: Sequence[str] | None = None) -> str:
    """What a command prints on standard output; `said` are the lines typed to it."""
    typed = None if said is None else "".join(f"{line}\n" for line in said)
    ran = CliRunner().invoke(command, [str(each) for each in arguments], input=typed, standalone_mode=False)
    if ran.exception is not None:
        raise ran.exception
    return ran.stdout


def told(name: str, journal: Path) -> Game:
    """The game of a scenario, told into that journal."""
    story = read_story(scenarios() / name / "story.yaml")
    return Game(name, story, journal, retold(story, journal))


def told_aloud(name: str, journal: Path) -> Game:
    """The game of a scenario, every step of it spoken and heard by the recogniser, into that journal."""
    story = read_story(scenarios() / name / "story.yaml")
    spoken = recordings(story, story.steps, journal.parent)
    printed = run(hear.command, *spoken, "--json", "--journal", journal)
    return Game(name, story, journal, [json.loads(line) for line in printed.splitlines()])


def retold(story: Story, journal: Path) -> list[dict[str, Any]]:
    """What `tell --json` prints of a story."""
    said = [step.say for step in story.steps]
    return [
        json.loads(line) for line in run(tell.command, "--json", "--journal", journal, said=said).splitlines()
    ]


def replayed(game: Game, *arguments: object) -> dict[str, Any]:
    """What `replay --json` prints."""
    printed: dict[str, Any] = json.loads(run(replay.command, game.journal, "--json", *arguments))
    return printed
