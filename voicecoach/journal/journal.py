"""The journal of a game: every entry is on disk before what it did is spoken."""

import errno
from contextlib import ExitStack
from pathlib import Path
from types import TracebackType

from filelock import BaseFileLock

from voicecoach.errors import DataProblem, shown
from voicecoach.journal.disk import JournalFile
from voicecoach.journal.files import Files, RealFiles
from voicecoach.journal.line import MAX_LINE, encode, looks_ours
from voicecoach.journal.lock import locked
from voicecoach.journal.problems import (
    JournalUnwritable,
    busy,
    damaged,
    given_up,
    not_a_journal,
    unopened,
    unwritten,
)
from voicecoach.journal.scan import read
from voicecoach.session.values import Entry


class Journal:
    """An open journal, for a `with` statement. One process at a time has it open.

    An entry that can't be written stays in memory and goes to disk before any later one.
    """

    def __init__(self, file: JournalFile) -> None:
        self.path = file.path
        self.repair: str | None = None
        """What had to be repaired on opening; None when nothing had to be."""
        self.repair_spoken: str | None = None
        """The same for the ear, without names of files or digits. It is to be spoken once."""
        self.trouble: JournalUnwritable | None = None
        """Why it could not be opened for writing, where it was opened all the same and waits."""
        self._file = file
        self._lock: BaseFileLock | None = None
        self._entries: list[Entry] = []
        self._pending: list[Entry] = []
        self._told: int | None = None  # the error that was last told, while it lasts

    @property
    def entries(self) -> tuple[Entry, ...]:
        """Every entry so far, in order, including those that wait in memory."""
        return (*self._entries, *self._pending)

    @property
    def pending(self) -> tuple[Entry, ...]:
        """The last entries, if they wait in memory because they couldn't be written."""
        return tuple(self._pending)

    def append(self, entry: Entry) -> bool:
        """Put an entry on disk before returning; False while it waits in memory.

        The first time that writing fails, and whenever the reason changes, it raises JournalUnwritable. The
        entry is kept all the same. DataProblem means that it could never be written, and it is not kept.
        """
        due = len(self._entries) + len(self._pending) + 1
        if entry.number != due:
            raise ValueError(f"entry {entry.number} where {due} is due")
        encode(entry)
        self._pending.append(entry)
        return self.retry()

    def retry(self) -> bool:
        """Write what waits in memory; True once nothing waits. Raises JournalUnwritable, like `append`."""
        try:
            if self._pending and self._lock is None:
                self._begin()
            while self._pending:
                self._file.append(encode(self._pending[0]))
                self._entries.append(self._pending.pop(0))
        except OSError as error:
            self._file.close()
            if error.errno == self._told:
                return False
            self._told = error.errno
            raise unwritten(self.path, error) from None
        except DataProblem as problem:  # another program has made something else of the file meanwhile
            if self._told == errno.EBADMSG:
                return False
            self._told = errno.EBADMSG
            raise damaged(problem) from None
        self._told = None
        return True

    def close(self) -> None:
        """Close the journal after a last try to write what waits. Raises when that fails too."""
        with ExitStack() as ending:
            ending.callback(self._unlock)
            ending.callback(self._file.close)
            self._told = None
            try:
                self.retry()
            except JournalUnwritable:
                raise given_up(self.path, len(self._pending)) from None

    def _begin(self) -> None:
        """Lock, check and repair. What was read while waiting must still be there.

        Raises OSError and DataProblem.
        """
        with ExitStack() as undo:
            undo.callback(self._unlock)
            undo.callback(self._file.close)
            self._make_folder()
            self._lock = locked(self.path)
            found, aside = self._file.begin(shown(self.path))
            if self.trouble and found.entries != self._entries:
                raise OSError(errno.ESTALE, "other entries have come")
            undo.pop_all()
        self._entries = found.entries
        if aside:
            self.repair = (
                f"The end of the journal {shown(self.path)} was torn: {found.torn} bytes after note "
                f"{len(found.entries)} are set aside in {shown(aside)}, and the journal goes on from there."
            )
            self.repair_spoken = (
                "The end of the journal was torn and has been set aside. The notes before it are safe."
            )

    def _make_folder(self) -> None:
        """Make its folder for the user alone. Otherwise the lock would make it, for everybody."""
        try:
            self.path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        except FileExistsError:
            raise NotADirectoryError(errno.ENOTDIR, "a file has its folder's name") from None

    def _wait(self, error: OSError) -> None:
        """Go on in memory from what can be read."""
        self.trouble = unwritten(self.path, error)
        self._told = error.errno
        if self.path.exists():
            self._entries = list(read(self.path)[0])

    def _unlock(self) -> None:
        if self._lock is not None:
            self._lock.release()
            self._lock = None

    def __enter__(self) -> "Journal":
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()


def open_journal(path: Path | str, files: Files | None = None, *, wait: bool = False) -> Journal:
    """Open or begin a journal for writing. It is locked and checked, and a torn tail is set aside.

    Raises JournalBusy when another process has it, DataProblem when it is damaged beyond repair or isn't a
    journal, and JournalUnwritable when it can't be opened for writing. With `wait` the last is not raised but
    kept as the journal's `trouble`; entries are kept in memory, and each append tries again.
    """
    path = _plain(Path(path), wait=wait)
    journal = Journal(JournalFile(path, files or RealFiles()))
    try:
        journal._begin()
    except OSError as error:
        if error.errno == errno.EBUSY:
            raise busy(path) from None
        if not wait:
            raise unopened(path, error) from None
        journal._wait(error)
    return journal


def _plain(path: Path, *, wait: bool) -> Path:
    """The path with its links followed, so that two names of one journal share one lock."""
    try:
        path = path.resolve()
        if not wait and not path.parent.is_dir():
            raise FileNotFoundError(errno.ENOENT, "no such folder")
        if path.exists():
            _check_ours(path)
    except OSError as error:
        raise unopened(path, error) from None
    except (ValueError, RuntimeError):  # a NUL in the name; links that lead in a circle
        raise DataProblem(f"{shown(path)} can't be the name of a journal. Choose another name.") from None
    return path


def _check_ours(path: Path) -> None:
    """Refuse what can't be a journal before anything is written beside it, so that a slip leaves no trace."""
    if not path.is_file():
        raise DataProblem(
            f"{shown(path)} is not a plain file, so it can't be a journal. Choose another name."
        )
    with path.open("rb") as stream:
        if not looks_ours(stream.readline(MAX_LINE + 1)):
            raise DataProblem(not_a_journal(shown(path)))
