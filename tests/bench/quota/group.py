"""A share of one core and no more, for a process and all that come from it: a control group with a quota."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path
from types import TracebackType

PERIOD_US = 100_000
"""The kernel's own usual period."""
MOUNTED = Path("/sys/fs/cgroup")
NAME = f"voicecoach-bench-{os.getpid()}"


class NoQuota(Exception):
    """This machine lets nobody set a quota, or not this user."""


class Quota:
    """The group, inside a `with`."""

    def __init__(self, share: float) -> None:
        quota_us = round(share * PERIOD_US)
        self._folder = _made()
        if (self._folder / "cpu.max").exists():
            (self._folder / "cpu.max").write_text(f"{quota_us} {PERIOD_US}")
        else:
            (self._folder / "cpu.cfs_period_us").write_text(str(PERIOD_US))
            (self._folder / "cpu.cfs_quota_us").write_text(str(quota_us))

    def put(self, pid: int) -> None:
        """Put a process under the quota, and with it all that it starts from now on."""
        (self._folder / "cgroup.procs").write_text(str(pid))

    def __enter__(self) -> Quota:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, value: BaseException | None, trace: TracebackType | None
    ) -> None:
        with suppress(OSError):  # whatever is still in it keeps it, and goes with the machine
            self._folder.rmdir()


def _made() -> Path:
    """A group of our own: of the older form (`cpu`) where that is mounted, else of the one form there is."""
    older = MOUNTED / "cpu"
    folder = (older if older.is_dir() else MOUNTED) / NAME
    try:
        if not older.is_dir():
            (MOUNTED / "cgroup.subtree_control").write_text("+cpu")
        folder.mkdir()
    except OSError as problem:
        raise NoQuota(f"{folder} can't be made: {problem.strerror}. A quota is for root to set.") from problem
    if not any((folder / name).exists() for name in ("cpu.max", "cpu.cfs_quota_us")):
        folder.rmdir()
        raise NoQuota(f"{folder.parent} has no quota for processors.")
    return folder
