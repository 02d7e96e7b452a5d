"""Sets a torn tail aside, since nothing that was in the journal is ever dropped."""

import os
import zlib
from pathlib import Path

from voicecoach.journal.files import Files, close_quietly, write_all
from voicecoach.journal.scan import CHUNK, Scan


def set_aside(files: Files, path: Path, found: Scan) -> Path:
    """Copy what follows the last sound line into a file beside the journal; the journal stays as it is.

    The file's name holds the line's number and the checksum of its content, so that doing it again makes no
    second copy.
    """
    waiting = path.with_name(f"{path.name}.torn")
    check = _copy(files, path, waiting, found.good)
    kept = path.with_name(f"{path.name}.torn-line-{len(found.entries) + 1}-{check:08x}")
    files.rename(waiting, kept)
    files.sync_folder(path.parent)
    return kept


def _copy(files: Files, source: Path, target: Path, start: int) -> int:
    reading = files.open(source, os.O_RDONLY)
    try:
        writing = files.open(target, os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
        try:
            check = _copy_from(files, reading, writing, start)
            files.fsync(writing)
        finally:
            close_quietly(files, writing)
    finally:
        close_quietly(files, reading)
    return check


def _copy_from(files: Files, reading: int, writing: int, start: int) -> int:
    check = passed = written = 0
    while chunk := files.read(reading, CHUNK):
        tail = chunk[max(0, start - passed) :]
        write_all(files, writing, tail, written)
        check = zlib.crc32(tail, check)
        passed, written = passed + len(chunk), written + len(tail)
    return check
