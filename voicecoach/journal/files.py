"""The few file operations that the journal stands on, in one small layer so that tests can make each fail."""

import contextlib
import os
import sys
from pathlib import Path
from typing import Protocol

if sys.platform == "darwin":
    import fcntl


class Files(Protocol):
    """What the journal asks of a file system; every operation may raise OSError."""

    def open(self, path: Path, flags: int) -> int:
        """A descriptor for the file; a new one is for its owner alone (0600)."""

    def read(self, descriptor: int, size: int) -> bytes:
        """Up to size bytes from where the descriptor stands; none at the end."""

    def write(self, descriptor: int, data: bytes) -> int:
        """Write at the end; the number of bytes taken, which may be fewer than given."""

    def fsync(self, descriptor: int) -> None:
        """Return once what was written would outlive a loss of power."""

    def truncate(self, descriptor: int, size: int) -> None:
        """Cut the file off after size bytes."""

    def rename(self, old: Path, new: Path) -> None:
        """Give the file a new name, in place of any file that had it."""

    def close(self, descriptor: int) -> None:
        """Give the descriptor back."""

    def sync_folder(self, folder: Path) -> None:
        """Return once the names in the folder would outlive a loss of power."""


class RealFiles:
    """The operating system's own."""

    def open(self, path: Path, flags: int) -> int:
        """See Files."""
        # Windows changes line ends unless told that the file is binary.
        return os.open(path, flags | getattr(os, "O_BINARY", 0), 0o600)

    def read(self, descriptor: int, size: int) -> bytes:
        """See Files."""
        return os.read(descriptor, size)

    def write(self, descriptor: int, data: bytes) -> int:
        """See Files."""
        return os.write(descriptor, data)

    def fsync(self, descriptor: int) -> None:
        """See Files."""
        if sys.platform == "darwin":
            # There fsync leaves the data in the drive's own cache.
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


def write_all(files: Files, descriptor: int, data: bytes) -> None:
    """Write the whole of data, however few bytes the system takes at a time."""
    while data:
        taken = files.write(descriptor, data)
        if taken <= 0:
            raise OSError("nothing was written")
        data = data[taken:]


def close_quietly(files: Files, descriptor: int) -> None:
    """Close where a failure changes nothing: all that counts was synced, or is about to be written again."""
    with contextlib.suppress(OSError):
        files.close(descriptor)
