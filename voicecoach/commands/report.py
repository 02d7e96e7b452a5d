"""`voicecoach report`: one page of a game, to look at, to read and to hear; or one of a season."""

from pathlib import Path

import click

from voicecoach import journal
from voicecoach.coach.page import page
from voicecoach.coach.record import Record, record
from voicecoach.coach.season import season
from voicecoach.coach.season_view import season_page
from voicecoach.commands.journals import Reading, found
from voicecoach.commands.showing import tell_on_the_side
from voicecoach.errors import Problem
from voicecoach.speak.clips import Clips
from voicecoach.whole_file import refuse_same, write_whole


@click.command()
@click.argument("given", metavar="JOURNAL", type=click.Path(exists=True, path_type=Path))
@click.option(
    "--output", "-o", required=True, type=click.Path(dir_okay=False, path_type=Path), help="The page."
)
@click.option(
    "--title", help="What the page is called; the journal's or the folder's name if nothing is given."
)
@click.option("--silent", is_flag=True, help="Leave the sound out.")
def command(given: Path, output: Path, title: str | None, silent: bool) -> int:
    """Write one page of a game: what happened, line and length, each head to see, read and hear.

    A folder gives one page of a season: its games in a row, all journals in it that end in .jsonl. It has
    no sound. A page is one file and needs no network. It can be read without scripts, but not heard.
    """
    paths = found(given)
    refuse_same(output, paths)
    reading = Reading(paths)
    if given.is_dir():
        whole = season((path.stem, entries) for path, entries in reading)
        text = season_page(title or given.resolve().name, whole)
    else:
        text = game_page(given, title, silent=silent)
    write_whole(output, [text])
    tell_on_the_side(f"The page is in {output}.")
    return reading.status


def game_page(file: Path, title: str | None = None, *, silent: bool = False) -> str:
    """The page of one journal; without sound where the voice can't speak, which is then said."""
    entries, torn = journal.read(file)
    if torn:
        tell_on_the_side(torn)
    name, record_ = title or file.stem, record(entries)
    if silent:
        return _silent(name, record_)
    try:
        with Clips() as clips:
            return page(name, record_, clips.playing, clips.files)
    except Problem as problem:
        tell_on_the_side(f"{problem} The page is written without sound.")
        return _silent(name, record_)


def _silent(title: str, found: Record) -> str:
    return page(title, found, lambda _: (), lambda: ())
