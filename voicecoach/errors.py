"""Errors that reach a person: each carries the sentence to speak and the exit status."""

import errno


class Problem(Exception):
    """Something went wrong. The message says what, where and what to do, and can be spoken."""

    exit_status = 1


class DeviceProblem(Problem):
    """A microphone, headphones or the sound library is missing or went away."""

    exit_status = 3


class DeviceRefused(DeviceProblem):
    """A device that is there can't be opened, or doesn't answer: a moment later it may."""


class ModelProblem(Problem):
    """The speech model is missing or isn't the one that was asked for."""

    exit_status = 4


class DataProblem(Problem):
    """A file is damaged beyond repair, or was written by a newer version."""

    exit_status = 5


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


def shown(path: object) -> str:
    """A path that can be printed. Signs that would move the cursor or reverse the line are replaced."""
    return "".join(sign if sign.isprintable() else "?" for sign in str(path))
