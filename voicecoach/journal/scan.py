"""Reads a journal. Every line is checked, and a torn tail is told apart from damage in the middle."""

import gc
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from voicecoach.errors import DataProblem, Problem, shown, why
from voicecoach.journal.line import MAX_LINE, BrokenLine, decode, hides_sound_line, looks_ours
from voicecoach.journal.problems import not_a_journal
from voicecoach.session.values import Entry

CHUNK = 1 << 20


@dataclass
class Scan:
    """What a journal holds."""

    entries: list[Entry] = field(default_factory=list)
    good: int = 0
    """Bytes in the lines that are sound."""
    check: int = 0
    """CRC-32 of those bytes."""
    last: bytes = b""
    """The last sound line; its line feed may be missing."""
    torn: int = 0
    """Bytes after the last sound line."""


def scan(read: Callable[[int], bytes], name: str) -> Scan:
    """Read a journal to its end. Raises DataProblem, with the line's number, for what can't be repaired."""
    with _no_collecting():
        return _scan(read, name)


def read(path: Path | str) -> tuple[tuple[Entry, ...], str | None]:
    """Every entry of a journal, and a message if a torn tail was left out. Nothing is changed."""
    path = Path(path)
    try:
        if path.exists() and not path.is_file():  # reading a device might never end
            raise Problem(f"{shown(path)} is not a plain file, so it can't be a journal.")
        with path.open("rb") as stream:
            found = scan(stream.read, shown(path))
    except (OSError, ValueError) as error:  # a ValueError for a NUL in the name
        raise Problem(f"The journal {shown(path)} can't be read: {_why_unread(error)}.") from None
    if not found.torn:
        return tuple(found.entries), None
    return tuple(found.entries), (
        f"The end of the journal {shown(path)} is torn: {found.torn} bytes after note {len(found.entries)} "
        "are left out. They stay in the journal."
    )


def _why_unread(error: OSError | ValueError) -> str:
    if isinstance(error, FileNotFoundError | ValueError):
        return "there is no such file"
    return "this user may not read it" if isinstance(error, PermissionError) else why(error)


@contextmanager
def _no_collecting() -> Iterator[None]:
    # Entries form no cycles, and the collector would walk all of them again and again, for more than half the
    # time of reading ten thousand.
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        gc.set_threshold(50_000, 20, 20)  # the fold that follows must not walk all that was read either
        if was_on:
            gc.enable()


def _scan(read: Callable[[int], bytes], name: str) -> Scan:
    found = Scan()
    for number, raw in enumerate(_lines(read), start=1):
        line = _line(raw)
        entry = _entry(line, number, name)
        if entry is None:
            _check_tail(found, line, number, name)
            found.torn += len(raw)
        elif found.torn:
            raise DataProblem(_damaged(name, len(found.entries) + 1))
        else:
            _follow(found, entry, number, name)
            found.good += len(raw)
            found.check = zlib.crc32(raw, found.check)
            found.last = raw
    return found


def _check_tail(found: Scan, line: bytes, number: int, name: str) -> None:
    """A broken line may be set aside if it can be torn: a line of ours, with no sound one in it."""
    if number == 1 and not looks_ours(line):
        raise DataProblem(not_a_journal(name))
    if hides_sound_line(line):
        raise DataProblem(_damaged(name, len(found.entries) + 1))


def _lines(read: Callable[[int], bytes]) -> Iterator[bytes]:
    """Lines with their line feeds. One longer than MAX_LINE comes in pieces, and no piece is a sound line."""
    rest = b""
    while chunk := read(CHUNK):
        *whole, rest = (rest + chunk).split(b"\n")
        for line in whole:
            yield line + b"\n"
        if len(rest) > MAX_LINE:
            yield rest
            rest = b""
    if rest:
        yield rest


def _line(raw: bytes) -> bytes:
    # A line that went through a program which ends lines in CR LF is still the line that was written.
    return raw.removesuffix(b"\n").removesuffix(b"\r")


def _entry(line: bytes, number: int, name: str) -> Entry | None:
    try:
        return decode(line)
    except BrokenLine:
        return None
    except DataProblem as problem:
        raise DataProblem(
            f"Line {number} of the journal {name} can't be read: {problem}. It may come from a newer "
            "voicecoach: read it with that one. Nothing was changed."
        ) from None


def _follow(found: Scan, entry: Entry, number: int, name: str) -> None:
    due = len(found.entries) + 1
    if entry.number != due:
        fault = "is missing" if entry.number > due else "is there twice"
        which = due if entry.number > due else entry.number
        raise DataProblem(
            f"Line {number} of the journal {name} has number {entry.number} where {due} was due: "
            f"note {which} {fault}. Use a copy of the journal from before that. Nothing was changed."
        )
    found.entries.append(entry)


def _damaged(name: str, line: int) -> str:
    return (
        f"Line {line} of the journal {name} is damaged, and a sound line follows. "
        f"Use a copy of the journal, or keep only the lines before line {line}. Nothing was changed."
    )
