"""`voicecoach report`: one page of a game, to look at, to read and to hear."""

from pathlib import Path

import click

from voicecoach import journal
from voicecoach.coach.page import page
from voicecoach.coach.record import Record, record
from voicecoach.commands.options import journal_argument
from voicecoach.commands.showing import tell_on_the_side
from voicecoach.errors import Problem
from voicecoach.speak.clips import Clips
from voicecoach.whole_file import refuse_same, write_whole


@click.command()
@journal_argument
@click.option(
    "--output", "-o", required=True, type=click.Path(dir_okay=False, path_type=Path), help="The page."
)
@click.option("--title", help="What the page is called; the journal's name if nothing is given.")
@click.option("--silent", is_flag=True, help="Leave the sound out.")
def command(file: Path, output: Path, title: str | None, silent: bool) -> None:
    """Write one page of a game: drawings, the read-backs to read and hear, the figures.

    The page is one file and needs no network. It can be read without scripts, but not heard.
    """
    entries, torn = journal.read(file)
    if torn:
        tell_on_the_side(torn)
    refuse_same(output, [file])
    write_whole(output, [_page(title or file.stem, record(entries), silent=silent)])
    tell_on_the_side(f"The page is in {output}.")


def _page(title: str, found: Record, *, silent: bool) -> str:
    if silent:
        return _silent(title, found)
    try:
        with Clips() as clips:
            return page(title, found, clips.playing, clips.files)
    except Problem as problem:
        tell_on_the_side(f"{problem} The page is written without sound.")
        return _silent(title, found)


def _silent(title: str, found: Record) -> str:
    return page(title, found, lambda _: (), lambda: ())
