"""`voicecoach tell`: typed notes."""

import sys
from collections.abc import Iterable, Iterator
from pathlib import Path

import click

from voicecoach.commands.opening import conversation
from voicecoach.commands.options import game_option, journal_option, log_option, profile_option
from voicecoach.commands.showing import show
from voicecoach.hear.values import Heard
from voicecoach.log_file import logging_to


@click.command()
@click.argument("notes", metavar="[NOTE]...", nargs=-1)
@click.option("--json", is_flag=True, help="Print one JSON object for each note.")
@journal_option
@game_option
@profile_option
@log_option
def command(
    notes: tuple[str, ...],
    json: bool,
    journal: Path | None,
    game: Path | None,
    profile: Path | None,
    log: Path | None,
) -> None:
    """Take typed notes: the ones given, or else one a line from standard input.

    Each note is answered before the next is read.
    """
    with logging_to(log), conversation(journal, game, profile) as opened:
        for text in _lines(notes):
            entry = opened.hear(Heard(text=text))
            show(entry, opened.picture(), json=json)


def _lines(notes: Iterable[str]) -> Iterator[str]:
    for line in notes or sys.stdin:
        if line.strip():
            yield line.strip()
