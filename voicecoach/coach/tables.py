"""Rows as the text of a file: CSV or JSON Lines."""

import csv
import io
from collections.abc import Iterable, Iterator

from voicecoach.coach.rows import Row

COLUMNS = tuple(Row.model_fields)
_TEXTS = frozenset({"journal", "heard", "why_dead", "remark"})
"""Columns that hold other people's words."""


def as_json_lines(rows: Iterable[Row]) -> Iterator[str]:
    """One JSON object a line."""
    for row in rows:
        yield row.model_dump_json() + "\n"


def as_csv(rows: Iterable[Row]) -> Iterator[str]:
    """A line of column names, then a line for each row; empty for what is unknown, `true` and `false`."""
    yield _csv_line(COLUMNS)
    for row in rows:
        yield _csv_line([_cell(name, value) for name, value in row])


def _csv_line(cells: Iterable[object]) -> str:
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerow(cells)
    return text.getvalue()


def _cell(name: str, value: object) -> object:
    if isinstance(value, bool):
        return "true" if value else "false"
    # A spreadsheet would run a text that begins like a formula.
    if name in _TEXTS and str(value).startswith(("=", "+", "-", "@", "\t", "\r")):
        return f"'{value}"
    return value
