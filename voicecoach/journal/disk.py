"""The journal's file: what is surely on disk, and how writing goes on after any failure."""

import errno
import os
import zlib
from pathlib import Path

from voicecoach.journal.aside import set_aside
from voicecoach.journal.files import Files, close_quietly, write_all
from voicecoach.journal.scan import CHUNK, Scan, scan


class JournalFile:
    """Appends whole lines and knows how far the file is durable. Every method may raise OSError.

    After any failure the end of the file counts as unknown. A failed fsync may have thrown away what it
    should have kept, and a second one would report success. So the file is opened anew, what was durable is
    checked, the rest is cut off, and the line is written again from memory.
    """

    def __init__(self, path: Path, files: Files) -> None:
        self.path = path
        self._files = files
        self._descriptor: int | None = None
        self._durable = 0  # bytes that are surely on disk
        self._check = 0  # the CRC-32 of those bytes
        self._own_tail = False  # whether what lies past them can only come from a failed write of our own

    def begin(self, name: str) -> tuple[Scan, Path | None]:
        """Open or make the file, check it, and set a torn tail aside; also returns where that went."""
        self._descriptor = self._files.open(self.path, os.O_RDWR | os.O_CREAT)
        self._files.sync_folder(self.path.parent)
        found = scan(lambda size: self._files.read(self._open_descriptor(), size), name)
        aside = None
        if found.torn:
            aside = set_aside(self._files, self.path, found)
            self._files.truncate(self._descriptor, found.good)
        self._make_durable(self._descriptor, found)
        self._durable, self._check = found.good, found.check
        return found, aside

    def _make_durable(self, descriptor: int, found: Scan) -> None:
        """Make the last line durable: a process with a failed fsync may have left it in memory only.

        The system would forget such a line at a loss of power although a second fsync reports success, so it
        is written again in its place. Every line before it was on disk before it was written.
        """
        start = found.good - len(found.last)
        if found.last and not found.last.endswith(b"\n"):
            found.last += b"\n"
            found.good, found.check = found.good + 1, zlib.crc32(b"\n", found.check)
        write_all(self._files, descriptor, found.last, start)
        self._files.fsync(descriptor)

    def append(self, line: bytes) -> None:
        """Put a line on disk. When this returns, the line outlives a loss of power."""
        if self._descriptor is None:
            self._reopen()
        descriptor = self._open_descriptor()
        if self._files.size(descriptor, self.path) != self._durable:
            raise OSError(errno.ESTALE, "another program has written to it")
        self._own_tail = True
        write_all(self._files, descriptor, line, self._durable)
        self._files.fsync(descriptor)
        self._own_tail = False
        self._durable += len(line)
        self._check = zlib.crc32(line, self._check)

    def close(self) -> None:
        """Close the file. The next append opens it anew and checks it."""
        descriptor, self._descriptor = self._descriptor, None
        if descriptor is not None:
            close_quietly(self._files, descriptor)

    def _open_descriptor(self) -> int:
        if self._descriptor is None:
            raise OSError(errno.EBADF, "the journal is closed")
        return self._descriptor

    def _reopen(self) -> None:
        descriptor = self._files.open(self.path, os.O_RDWR)
        try:
            if self._check_of(descriptor) != self._check:
                raise OSError(errno.ESTALE, "the lines written before have changed")
            if self._own_tail:
                self._files.truncate(descriptor, self._durable)
                self._files.fsync(descriptor)
        except OSError:
            close_quietly(self._files, descriptor)
            raise
        self._descriptor = descriptor

    def _check_of(self, descriptor: int) -> int:
        left, check = self._durable, 0
        while left and (chunk := self._files.read(descriptor, min(left, CHUNK))):
            left -= len(chunk)
            check = zlib.crc32(chunk, check)
        return check if not left else -1
