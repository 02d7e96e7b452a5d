"""One writer at a time: a lock file beside the journal, which the system gives back when a process dies."""

import errno
from pathlib import Path

from filelock import BaseFileLock, FileLock, Timeout


def locked(path: Path) -> BaseFileLock:
    """Take the lock on a journal.

    Raises OSError where that can't be done: EBUSY when another process has it, ENOSYS where files have no
    locks.
    """
    beside = path.with_name(f"{path.name}.lock")
    # A marker file in place of a lock would outlive a process that dies.
    lock = FileLock(beside, timeout=0, mode=0o600, thread_local=False, fallback_to_soft=False)
    try:
        lock.acquire()
    except Timeout:
        if not beside.exists():
            raise PermissionError(errno.EACCES, "no lock can be made") from None
        raise OSError(errno.EBUSY, "another process has the lock") from None
    return lock
