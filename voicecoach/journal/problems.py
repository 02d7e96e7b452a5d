"""What can go wrong with a journal, in words."""

import errno
from pathlib import Path

from voicecoach.errors import Problem


class JournalBusy(Problem):
    """Another process writes this journal."""


class JournalUnwritable(Problem):
    """The journal can't be written now."""

    def __init__(self, message: str, spoken: str) -> None:
        super().__init__(message)
        self.spoken = spoken
        """The same for the ear: no names of files, no digits."""


_REASONS = {
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "this user's share of the disk is full",
    errno.EFBIG: "the file has reached its largest size",
    errno.EROFS: "the disk is read-only",
    errno.EACCES: "this user may not write there",
    errno.EPERM: "this user may not write there",
    errno.EIO: "the disk reports an error",
    errno.EBUSY: "another program is writing it",
    errno.ENOENT: "its folder is not there",
    errno.ENOTDIR: "its folder is not there",
    errno.ENAMETOOLONG: "its name is too long",
    errno.ENOSYS: "files can't be locked there",
    errno.ESTALE: "another program has changed it",
}


def why(error: OSError) -> str:
    """The reason in plain words."""
    return _REASONS.get(error.errno or 0, error.strerror or "the system gives no reason")


def what_to_do(error: OSError) -> str:
    """What the person can do about it."""
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return "Make room on the disk."
    if error.errno == errno.EIO:
        return "Check the disk, and choose another one."
    if error.errno == errno.ENOSYS:
        return "Choose a folder on this computer's own disk."
    return "Choose another place."


def shown(path: Path) -> str:
    """A path that can be printed: what would move the cursor or turn the line about is replaced."""
    return "".join(sign if sign.isprintable() else "?" for sign in str(path))


def busy(path: Path) -> JournalBusy:
    """Another process has the journal open."""
    return JournalBusy(
        f"Another voicecoach is writing the journal {shown(path)}. Close that one, or choose another journal."
    )


def unopened(path: Path, error: OSError) -> JournalUnwritable:
    """The journal could not be opened."""
    end = f"can't be opened for writing: {why(error)}. {what_to_do(error)}"
    return JournalUnwritable(f"The journal {shown(path)} {end}", f"The journal {end}")


def unwritten(path: Path, error: OSError) -> JournalUnwritable:
    """An entry could not be written, and is kept in memory."""
    end = f"can't be written: {why(error)}. Notes are kept in memory until it can be. {what_to_do(error)}"
    return JournalUnwritable(f"The journal {shown(path)} {end}", f"The journal {end}")


def damaged(problem: Problem) -> JournalUnwritable:
    """What is in the journal's place can't be gone on with: entries are kept in memory."""
    return JournalUnwritable(
        f"{problem} Notes are kept in memory.",
        "Something else is in the journal's place. Notes are kept in memory. Choose another place.",
    )


def not_a_journal(name: str) -> str:
    """The message for a file that was never a journal."""
    return f"{name} is not a voicecoach journal: its first line isn't one of ours. Nothing was changed."


def given_up(path: Path, pending: int) -> JournalUnwritable:
    """The journal is closed, and entries still wait."""
    message = f"The last {pending} notes could not be written to the journal {shown(path)}, and are lost."
    return JournalUnwritable(message, "The last notes could not be written to the journal, and are lost.")
