"""Watches what Python opens, runs and connects to, and stops what nobody asked for."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from voicecoach.places import PACKAGE

RUNS = (
    "subprocess.",
    "os.system",
    "os.exec",
    "os.posix_spawn",
    "os.fork",
    "os.spawn",
    "pty.",
    "socket.connect",
)
CHANGES = (
    "os.remove",
    "os.rename",
    "os.rmdir",
    "os.mkdir",
    "os.truncate",
    "os.link",
    "os.symlink",
    "os.chmod",
)
OWN = (PACKAGE, Path(sys.prefix), Path(sys.base_prefix))
"""What the program itself is made of may be read."""
_allowed: list[tuple[Path, ...]] = []


class Overstepped(BaseException):
    """A file was touched, or a program started, that nobody named; no handler of errors may swallow it."""


@contextmanager
def only(*named: Path) -> Iterator[None]:
    """While this lasts, only these files and folders may be opened, changed or written; nothing may run."""
    if not _hooked:
        sys.addaudithook(_hook)
        _hooked.append(True)
    _allowed.append(tuple(path.resolve() for path in named))
    try:
        yield
    finally:
        _allowed.pop()


_hooked: list[bool] = []


def _hook(event: str, given: tuple[object, ...]) -> None:
    if not _allowed:
        return
    if event.startswith(RUNS):
        raise Overstepped(f"{event} {given!r}")
    if event == "open":
        writes = isinstance(given[2], int) and given[2] & (os.O_WRONLY | os.O_RDWR | os.O_CREAT)
        _check(event, given[0], () if writes else OWN)
    elif event.startswith(CHANGES):
        _check(event, given[0], ())


def _check(event: str, path: object, also: tuple[Path, ...]) -> None:
    if not isinstance(path, str | bytes | os.PathLike):
        return  # a descriptor that is open already
    real = Path(os.path.realpath(os.fsdecode(path)))
    if not any(real.is_relative_to(named) for named in (*_allowed[-1], *also)):
        raise Overstepped(f"{event} {path!r}")
