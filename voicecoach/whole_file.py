"""Writes a file whole or not at all, for the user alone."""

import os
import tempfile
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

from voicecoach.errors import Problem, shown, what_to_do, why


@contextmanager
def replacing(path: Path) -> Iterator[BinaryIO]:
    """A new file to write into, under a temporary name; it takes its own name when the block ends well.

    Raises:
        Problem: It can't be written. A file that had the name before is as it was.
    """
    if path.exists() and not path.is_file():
        raise Problem(f"{shown(path)} can't be written: it isn't a file. Choose another name.")
    try:
        handle, name = tempfile.mkstemp(prefix=".voicecoach-", suffix=".part", dir=path.parent)
        try:
            with os.fdopen(handle, "wb") as file:
                yield file
                file.flush()
                os.fsync(file.fileno())
            Path(name).replace(path)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise
    except OSError as error:
        raise Problem(f"{shown(path)} can't be written: {why(error)}. {what_to_do(error)}") from None


def write_whole(path: Path, parts: Iterable[str]) -> None:
    """Write the parts in order, as text; raises what `replacing` raises."""
    with replacing(path) as file:
        file.writelines(part.encode("utf-8") for part in parts)


def refuse_same(output: Path, journals: Iterable[Path]) -> None:
    """Raise a Problem if the output would take a journal's place."""
    for journal in journals:
        if output.exists() and journal.exists() and output.samefile(journal):
            raise Problem(f"{shown(output)} is the journal itself. Choose another name for the output.")
