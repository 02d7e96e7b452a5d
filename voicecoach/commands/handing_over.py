"""The end of the day: where the game is, and a copy of it for the coach."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path
from typing import NamedTuple

from voicecoach.errors import Problem, shown, what_to_do, why
from voicecoach.phrasebook.numbers import without_digits

NOT_THERE = "The coach's folder is not there: nothing was copied."
COPYING = "The game is being copied for the coach."
COPIED = "The journal and the page are in the coach's folder, and were checked."


class Copies(NamedTuple):
    """What was written for the coach."""

    journal: Path
    page: Path


def where_it_is(path: Path) -> str:
    """Where a journal is, for the ear: its folder and its name, figures in words."""
    name = ", ".join(without_digits(str(int(part)) if part.isdigit() else part) for part in _parts(path))
    return f"The journal is closed. It is in the folder {without_digits(path.parent.name)}, named {name}."


def copy_for_coach(path: Path, folder: Path) -> Copies:
    """Copy a journal, and the page of it, into a folder, and read both back.

    A game of the same name that is another one's stays as it is: the copies then get a number.

    Args:
        path: The journal.
        folder: The coach's folder, such as a stick; it must be there.

    Raises:
        Problem: Something can't be written, or isn't on the stick as it was written.
        DataProblem: The journal is damaged beyond repair.
    """
    try:
        whole = path.read_bytes()
        copy = _place(folder, path.stem, whole)
        _write_checked(copy, whole)
        page = copy.with_suffix(".html")
        from voicecoach.commands.report import game_page  # noqa: PLC0415 - pages are large, and made at the end

        _write_checked(page, game_page(path).encode("utf-8"))
    except OSError as error:
        raise Problem(f"{shown(folder)} can't be written: {why(error)}. {what_to_do(error)}") from None
    return Copies(copy, page)


def _parts(path: Path) -> list[str]:
    return path.stem.replace("_", "-").split("-")


def _place(folder: Path, stem: str, whole: bytes) -> Path:
    """Where the copy goes: over an earlier copy of this game, never over another game."""
    number = 1
    while True:
        copy = folder / (f"{stem}.jsonl" if number == 1 else f"{stem}-copy-{number}.jsonl")
        if not copy.exists() or (copy.is_file() and whole.startswith(copy.read_bytes())):
            return copy
        number += 1


def _write_checked(path: Path, whole: bytes) -> None:
    """Write it whole or not at all; then read it from the medium, where the system lets us."""
    handle, name = tempfile.mkstemp(prefix=".voicecoach-", suffix=".part", dir=path.parent)
    try:
        with os.fdopen(handle, "w+b") as file:
            file.write(whole)
            file.flush()
            os.fsync(file.fileno())
            if hasattr(os, "posix_fadvise"):  # what is read next then comes from the stick, not from memory
                os.posix_fadvise(file.fileno(), 0, 0, os.POSIX_FADV_DONTNEED)
            file.seek(0)
            if file.read() != whole:
                raise Problem(f"{shown(path)} was not written as it should be. Take another stick.")
        Path(name).replace(path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
