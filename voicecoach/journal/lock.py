"""One writer at a time: a lock file beside the journal, which the system gives back when a process dies."""

import errno
from pathlib import Path

from filelock import BaseFileLock, FileLock, Timeout

from voicecoach.errors import DataProblem
from voicecoach.journal.problems import shown


def locked(path: Path) -> BaseFileLock:
    """The lock on a journal, taken; raises OSError where it can't be, EBUSY when another process has it."""
    beside = path.with_name(f"{path.name}.lock")
    lock = FileLock(beside, timeout=0, mode=0o600, thread_local=False)
    try:
        lock.acquire()
    except Timeout:
        if not beside.exists():
            raise PermissionError(errno.EACCES, "no lock can be made") from None
        raise OSError(errno.EBUSY, "another process has the lock") from None
    except NotImplementedError:  # filelock says so where the file system has no locks: refused in words
        raise DataProblem(
            f"The journal {shown(path)} can't be locked there. Choose a folder on this computer's own disk."
        ) from None
    return lock
