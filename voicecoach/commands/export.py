"""`voicecoach export`: journals as a table, one row for each bowl at each moment."""

from collections.abc import Callable, Iterable, Iterator
from itertools import chain
from pathlib import Path

import click

from voicecoach.coach.moments import moments
from voicecoach.coach.rows import Row, rows
from voicecoach.coach.tables import as_csv, as_json_lines
from voicecoach.commands.journals import Reading, found
from voicecoach.commands.showing import tell_on_the_side
from voicecoach.printed import plain
from voicecoach.whole_file import refuse_same, write_whole

FORMATS: dict[str, Callable[[Iterable[Row]], Iterator[str]]] = {"csv": as_csv, "jsonl": as_json_lines}

ENDINGS = {"": "csv", ".csv": "csv", ".jsonl": "jsonl", ".ndjson": "jsonl", ".json": "jsonl"}
"""What the output's name ends in, and the format that it stands for."""


@click.command()
@click.argument(
    "journals", metavar="JOURNAL...", nargs=-1, required=True, type=click.Path(exists=True, path_type=Path)
)
@click.option(
    "--output",
    "-o",
    type=click.Path(dir_okay=False, path_type=Path),
    help="The file to write; standard output if none is named.",
)
@click.option(
    "--format",
    "form",
    type=click.Choice(list(FORMATS)),
    help="csv or jsonl. Otherwise the ending of the output's name decides, and without one it is csv.",
)
def command(journals: tuple[Path, ...], output: Path | None, form: str | None) -> int:
    """Write one row for each bowl at each moment of the journals.

    A folder stands for every journal in it, all files that end in .jsonl. The columns are described in
    voicecoach/guide/export.md. A damaged journal is named, and the others are written.
    """
    write = FORMATS[form or _by_name(output)]
    paths = [path for given in journals for path in found(given)]
    if output is not None:
        refuse_same(output, paths)
    reading = Reading(paths)
    text = write(_rows(reading))
    if output is None:
        for line in text:
            click.echo(plain(line), nl=False)
    else:
        write_whole(output, text)
        tell_on_the_side(f"The table is in {output}.")
    return reading.status


def _rows(reading: Reading) -> Iterator[Row]:
    return chain.from_iterable(rows(path.name, moments(entries)) for path, entries in reading)


def _by_name(output: Path | None) -> str:
    """The format that the output's name ends in; CSV where it has no ending."""
    end = "" if output is None else output.suffix.lower()
    if end not in ENDINGS:
        raise click.UsageError(
            f"No table of the form {end} can be written. Let the output's name end in .csv or .jsonl, "
            "or say which with --format."
        )
    return ENDINGS[end]
