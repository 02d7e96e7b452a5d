"""Writes a file that a command was asked for, whole or not at all."""

import os
import tempfile
from collections.abc import Iterable
from pathlib import Path

from voicecoach.errors import Problem, shown, what_to_do, why


def write_whole(path: Path, parts: Iterable[str]) -> None:
    """Write the parts in order under a temporary name, for the user alone; then give the file its own name.

    Raises:
        Problem: It can't be written. A file that had the name before is as it was.
    """
    if path.exists() and not path.is_file():
        raise Problem(f"{shown(path)} can't be written: it isn't a file. Choose another name.")
    try:
        handle, name = tempfile.mkstemp(prefix=".voicecoach-", suffix=".part", dir=path.parent)
        try:
            with os.fdopen(handle, "w", encoding="utf-8", newline="") as file:
                file.writelines(parts)
                file.flush()
                os.fsync(file.fileno())
            Path(name).replace(path)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise
    except OSError as error:
        raise Problem(f"{shown(path)} can't be written: {why(error)}. {what_to_do(error)}") from None


def refuse_same(output: Path, journals: Iterable[Path]) -> None:
    """Raise a Problem if the output would take a journal's place."""
    for journal in journals:
        if output.exists() and journal.exists() and output.samefile(journal):
            raise Problem(f"{shown(output)} is the journal itself. Choose another name for the output.")
