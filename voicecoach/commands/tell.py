"""`voicecoach tell`: typed notes."""

import sys
from collections.abc import Iterable, Iterator
from pathlib import Path

import click

from voicecoach.commands.showing import show, tell_on_the_side
from voicecoach.conversation import Conversation
from voicecoach.hear.values import Heard


@click.command()
@click.argument("notes", metavar="[NOTE]...", nargs=-1)
@click.option("--json", is_flag=True, help="Print one JSON object for each note.")
@click.option(
    "--journal", type=click.Path(dir_okay=False, path_type=Path), help="Keep the session in this file."
)
def command(notes: tuple[str, ...], json: bool, journal: Path | None) -> None:
    """Take typed notes: the ones given, or else one a line from standard input.

    Each note is answered before the next is read.
    """
    with Conversation(journal, unwritten=lambda problem: tell_on_the_side(str(problem))) as conversation:
        if conversation.repair:
            tell_on_the_side(conversation.repair)
        for text in _lines(notes):
            entry = conversation.take(Heard(text=text))
            show(entry, conversation.picture(), json=json)


def _lines(notes: Iterable[str]) -> Iterator[str]:
    if not notes and hasattr(sys.stdin, "reconfigure"):
        sys.stdin.reconfigure(errors="replace")  # bytes that aren't text must not end the session
    for line in notes or sys.stdin:
        if line.strip():
            yield line.strip()
