"""The journal of a game: every entry is on disk before what it did is spoken."""

import errno
import os
import zlib
from pathlib import Path
from types import TracebackType

from filelock import FileLock, Timeout

from voicecoach.errors import DataProblem, Problem
from voicecoach.journal.aside import set_aside
from voicecoach.journal.files import Files, RealFiles, close_quietly, write_all
from voicecoach.journal.line import encode
from voicecoach.journal.scan import CHUNK, scan
from voicecoach.session.values import Entry


class JournalBusy(Problem):
    """Another process writes this journal."""


class JournalUnwritable(Problem):
    """The journal can't be written now; what should be in it is kept in memory until it can."""


class Journal:
    """An open journal; use it in a `with` statement. One process at a time may have it open.

    An entry that couldn't be written stays in memory, and goes to disk before any later one.
    """

    def __init__(self, path: Path, lock: FileLock, files: Files) -> None:
        self.path = path
        self.repair: str | None = None
        """What opening repaired, once, for the ear and for standard error; None when there was nothing."""
        self._lock = lock
        self._files = files
        self._entries: list[Entry] = []
        self._pending: list[Entry] = []
        self._descriptor: int | None = None
        self._durable = 0  # bytes that are surely on disk
        self._check = 0  # and their CRC-32
        self._told: int | None = None  # the error that was last told, while it lasts

    @property
    def entries(self) -> tuple[Entry, ...]:
        """Every entry so far, in order, those that wait in memory included."""
        return (*self._entries, *self._pending)

    @property
    def pending(self) -> int:
        """How many of the last entries wait in memory because they couldn't be written."""
        return len(self._pending)

    def append(self, entry: Entry) -> bool:
        """Put an entry on disk before returning; False while it and others wait in memory.

        The first time that writing fails, and whenever the reason changes, it raises JournalUnwritable:
        the entry is kept all the same.
        """
        due = len(self._entries) + len(self._pending) + 1
        if entry.number != due:
            raise ValueError(f"entry {entry.number} where {due} is due")
        encode(entry)  # what could never be written is refused before it is taken
        self._pending.append(entry)
        return self.retry()

    def retry(self) -> bool:
        """Write what waits in memory; True once nothing waits. Raises as `append` does."""
        try:
            self._write_pending()
        except OSError as error:
            self._drop_descriptor()
            if error.errno == self._told:
                return False
            self._told = error.errno
            raise JournalUnwritable(self._unwritable(error)) from None
        self._told = None
        return True

    def _write_pending(self) -> None:
        while self._pending:
            if self._descriptor is None:
                self._descriptor = self._reopen()
            line = encode(self._pending[0])
            write_all(self._files, self._descriptor, line)
            self._files.fsync(self._descriptor)
            self._durable += len(line)
            self._check = zlib.crc32(line, self._check)
            self._entries.append(self._pending.pop(0))

    def _drop_descriptor(self) -> None:
        """After any failure the file's tail is unknown: a failed fsync may have thrown pages away."""
        if self._descriptor is not None:
            close_quietly(self._files, self._descriptor)
            self._descriptor = None

    def _reopen(self) -> int:
        """Open again after a failure, check that what was on disk still is, and cut off the rest."""
        descriptor = self._files.open(self.path, os.O_RDWR | os.O_APPEND)
        try:
            if self._check_of(descriptor) != self._check:
                raise OSError(errno.EIO, "the lines written before have changed")
            self._files.truncate(descriptor, self._durable)
            self._files.fsync(descriptor)
        except OSError:
            close_quietly(self._files, descriptor)
            raise
        return descriptor

    def _check_of(self, descriptor: int) -> int:
        left, check = self._durable, 0
        while left and (chunk := self._files.read(descriptor, min(left, CHUNK))):
            left -= len(chunk)
            check = zlib.crc32(chunk, check)
        return check if not left else -1

    def _open(self) -> None:
        """Read, check and repair; raises OSError or DataProblem."""
        descriptor = self._files.open(self.path, os.O_RDWR | os.O_APPEND | os.O_CREAT)
        self._descriptor = descriptor
        self._files.sync_folder(self.path.parent)
        found = scan(lambda size: self._files.read(descriptor, size), str(self.path))
        if found.torn:
            kept = set_aside(self._files, self.path, found)
            self._files.truncate(descriptor, found.good)
            self.repair = self._repaired(len(found.entries), kept)
        if not found.ended:
            write_all(self._files, descriptor, b"\n")
            found.good, found.check = found.good + 1, zlib.crc32(b"\n", found.check)
        # What was read may be in memory only, left there by a process that was killed.
        self._files.fsync(descriptor)
        self._entries, self._durable, self._check = found.entries, found.good, found.check

    def close(self) -> None:
        """Give the journal back, after a last try to write what waits; raises if something still does."""
        try:
            self.retry()
            if self._pending:
                raise JournalUnwritable(self._lost())
        finally:
            self._drop_descriptor()
            self._lock.release()

    def _repaired(self, kept: int, aside: Path) -> str:
        return (
            f"The end of the journal {self.path.name} was torn, and is set aside in {aside.name}. "
            f"The {kept} notes before it are sound, and the journal goes on from there."
        )

    def _unwritable(self, error: OSError) -> str:
        return (
            f"The journal {self.path.name} can't be written: {why(error)}. "
            f"Notes are kept in memory until it can be. {what_to_do(error)}"
        )

    def _lost(self) -> str:
        return f"{self.pending} notes could not be written to the journal {self.path} and are lost."

    def __enter__(self) -> "Journal":
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()


def why(error: OSError) -> str:
    """The reason in plain words."""
    reasons = {
        errno.ENOSPC: "the disk is full",
        errno.EDQUOT: "the disk is full for this user",
        errno.EROFS: "the disk is read-only",
        errno.EACCES: "this user may not write there",
        errno.EPERM: "this user may not write there",
        errno.EIO: "the disk reports an error",
        errno.ENOENT: "its folder is not there",
    }
    return reasons.get(error.errno or 0, error.strerror or str(error))


def what_to_do(error: OSError) -> str:
    """What the person can do about it."""
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return "Make room on the disk."
    if error.errno == errno.EIO:
        return "Check the disk, and copy the journal to another one."
    return "Choose another place with --journal."


def open_journal(path: Path | str, files: Files | None = None) -> Journal:
    """Open or begin a journal for writing: locked, checked, its torn tail set aside.

    Raises JournalBusy when another process has it, DataProblem when it is damaged beyond repair, and
    JournalUnwritable when it can't be opened for writing.
    """
    path = Path(path).resolve()  # two names of one file share one lock
    lock = _lock(path)
    journal = Journal(path, lock, files or RealFiles())
    try:
        journal._open()
    except OSError as error:
        journal._drop_descriptor()
        lock.release()
        raise JournalUnwritable(
            f"The journal {path} can't be opened for writing: {why(error)}. {what_to_do(error)}"
        ) from None
    except DataProblem:
        journal._drop_descriptor()
        lock.release()
        raise
    return journal


def _lock(path: Path) -> FileLock:
    if path.exists() and not path.is_file():
        raise DataProblem(f"{path} is not a plain file, so it can't be a journal. Choose another name.")
    lock = FileLock(path.with_name(path.name + ".lock"), timeout=0, mode=0o600)
    try:
        lock.acquire()
    except Timeout:
        raise JournalBusy(
            f"Another voicecoach is writing the journal {path}. Close that one, or choose another journal "
            "with --journal."
        ) from None
    except OSError as error:
        raise JournalUnwritable(
            f"The journal {path} can't be opened for writing: {why(error)}. {what_to_do(error)}"
        ) from None
    return lock


def read(path: Path | str) -> tuple[tuple[Entry, ...], str | None]:
    """Every entry of a journal, and a message when a torn tail was left out; needs no lock."""
    path = Path(path)
    try:
        with path.open("rb") as stream:
            found = scan(stream.read, str(path))
    except OSError as error:
        raise Problem(f"The journal {path} can't be read: {why(error)}.") from None
    if not found.torn:
        return tuple(found.entries), None
    return tuple(found.entries), (
        f"The end of the journal {path} is torn and is left out: {found.torn} bytes after note "
        f"{len(found.entries)}. Opening it to go on sets them aside."
    )
