"""Reading a journal: every line checked, a torn tail told from damage in the middle."""

import gc
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

from voicecoach.errors import DataProblem
from voicecoach.journal.line import MAX_LINE, BrokenLine, decode, looks_ours
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
    ended: bool = True
    """False when the last sound line lacks its line feed."""
    torn: int = 0
    """Bytes after the last sound line."""


def scan(read: Callable[[int], bytes], name: str) -> Scan:
    """Read a journal to its end; raises DataProblem, with the line's number, for what can't be repaired."""
    with _no_collecting():
        return _scan(read, name)


@contextmanager
def _no_collecting() -> Iterator[None]:
    # Entries form no cycles, and the collector would walk all of them again and again: more than half the
    # time of reading ten thousand.
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _scan(read: Callable[[int], bytes], name: str) -> Scan:
    found = Scan()
    broken = 0  # the number of the first broken line
    for number, raw in enumerate(_lines(read), start=1):
        entry = _entry(raw, number, name)
        if entry is None:
            if not broken and not found.entries and not looks_ours(raw[:256]):
                raise DataProblem(_not_a_journal(name))
            broken = broken or number
        elif broken:
            raise DataProblem(_damaged(name, broken))
        else:
            _follow(found, entry, number, name)
            found.good += len(raw)
            found.check = zlib.crc32(raw, found.check)
            found.ended = raw.endswith(b"\n")
        if broken:
            found.torn += len(raw)
    return found


def _lines(read: Callable[[int], bytes]) -> Iterator[bytes]:
    """Lines with their line feeds; one longer than MAX_LINE comes in pieces, none of them a sound line."""
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


def _entry(raw: bytes, number: int, name: str) -> Entry | None:
    # A line that went through a program which ends lines in CR LF is still the line that was written.
    try:
        return decode(raw.removesuffix(b"\n").removesuffix(b"\r"))
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
        f"Line {line} of the journal {name} is damaged, and sound lines follow it. "
        f"Use a copy of the journal, or keep only the lines before line {line}. Nothing was changed."
    )


def _not_a_journal(name: str) -> str:
    return f"{name} is not a voicecoach journal: its first line isn't one of ours. Nothing was changed."
