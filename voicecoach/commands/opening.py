"""What `listen`, `hear` and `tell` have in common: opening a conversation."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import click

from voicecoach.commands.showing import tell_on_the_side
from voicecoach.conversation import Conversation
from voicecoach.game_file import read_game

journal_option = click.option(
    "--journal", type=click.Path(dir_okay=False, path_type=Path), help="Keep the session in this file."
)
game_option = click.option(
    "--game", type=click.Path(dir_okay=False, path_type=Path), help="How the game is played, a YAML file."
)


@contextmanager
def conversation(journal: Path | None, game: Path | None) -> Iterator[Conversation]:
    """A conversation with its repair told, and the game of the file set and read back, on standard error."""
    setting = read_game(game) if game else None
    with Conversation(journal, unwritten=lambda problem: tell_on_the_side(str(problem))) as opened:
        if opened.repair:
            tell_on_the_side(opened.repair)
        if setting:
            entry = opened.file(setting, str(game))
            tell_on_the_side(" ".join(sentence.text for sentence in entry.say))
        yield opened
