"""The few file operations that the journal stands on, in one small layer so that tests can make each fail."""

import contextlib
import errno
import os
import sys
from pathlib import Path
from typing import Protocol

if sys.platform == "darwin":
    import fcntl


class Files(Protocol):
    """What the journal asks of a file system; every operation may raise OSError."""

    def open(self, path: Path, flags: int) -> int:
        """A descriptor for the file. A new file is for its owner alone (0600)."""

    def size(self, descriptor: int, path: Path) -> int:
        """Bytes in the file. Raises OSError (ESTALE) when the path no longer names this very file."""

    def read(self, descriptor: int, size: int) -> bytes:
        """Up to `size` bytes from where the descriptor stands; none at the end."""

    def write(self, descriptor: int, data: bytes, at: int) -> int:
        """Write at an offset. Returns the number of bytes taken, which may be fewer than given."""

    def fsync(self, descriptor: int) -> None:
        """Return once what was written would outlive a loss of power."""

    def truncate(self, descriptor: int, size: int) -> None:
        """Cut the file off after size bytes."""

    def rename(self, old: Path, new: Path) -> None:
        """Give the file a new name, in place of any file that had it."""

    def close(self, descriptor: int) -> None:
        """Close the descriptor."""

    def sync_folder(self, folder: Path) -> None:
        """Return once the names in the folder would outlive a loss of power."""


class RealFiles:
    """The operating system's own."""

    def open(self, path: Path, flags: int) -> int:
        """See Files."""
        # Windows changes line ends unless told that the file is binary.
        return os.open(path, flags | getattr(os, "O_BINARY", 0), 0o600)

    def size(self, descriptor: int, path: Path) -> int:
        """See Files."""
        here = os.fstat(descriptor)
        if not os.path.samestat(here, path.stat()):
            raise OSError(errno.ESTALE, os.strerror(errno.ESTALE))
        return here.st_size

    def read(self, descriptor: int, size: int) -> bytes:
        """See Files."""
        return os.read(descriptor, size)

    def write(self, descriptor: int, data: bytes, at: int) -> int:
        """See Files."""
        os.lseek(descriptor, at, os.SEEK_SET)
        return os.write(descriptor, data)

    def fsync(self, descriptor: int) -> None:
        """See Files."""
        if sys.platform == "darwin":
            # On macOS fsync leaves the data in the drive's own cache.
            fcntl.fcntl(descriptor, fcntl.F_FULLFSYNC)
        else:
            os.fsync(descriptor)

    def truncate(self, descriptor: int, size: int) -> None:
        """See Files."""
        os.ftruncate(descriptor, size)

    def rename(self, old: Path, new: Path) -> None:
        """See Files."""
        old.replace(new)

    def close(self, descriptor: int) -> None:
        """See Files."""
        os.close(descriptor)

    def sync_folder(self, folder: Path) -> None:
        """See Files."""
        if os.name == "nt":
            return  # Windows can't open a folder, and keeps names safe by itself
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            self.fsync(descriptor)
        finally:
            os.close(descriptor)


def write_all(files: Files, descriptor: int, data: bytes, at: int) -> None:
    """Write the whole of data, however few bytes the system takes at a time."""
    done = 0
    while done < len(data):
        taken = files.write(descriptor, data[done:], at + done)
        if taken <= 0:
            raise OSError(errno.ENOSPC, "nothing was written")
        done += taken


def close_quietly(files: Files, descriptor: int) -> None:
    """Close, where a failure changes nothing: all that counts is on disk or about to be written again."""
    with contextlib.suppress(OSError):
        files.close(descriptor)
