"""A disk in memory that fails when told to and forgets what was never synced, as real ones do."""

import errno
import os
import random
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

PAGE = 64
"""Bytes the disk keeps or loses together; far smaller than a real page, so that lines span several."""


class PowerCut(BaseException):
    """The machine is gone: nothing after this runs."""


@dataclass(frozen=True)
class Fault:
    """What one operation does instead of its work."""

    error: int = errno.EIO
    short: bool = False
    """A write takes half of its data and reports so; any other operation fails with the error."""
    power: bool = False


@dataclass
class Inode:
    """One file: as the system shows it, and as the disk would have it after a loss of power."""

    now: bytearray = field(default_factory=bytearray)
    durable: bytes = b""
    dirty: set[int] = field(default_factory=set)
    """Pages that the system still means to write."""


Plan = Callable[[int, str], Fault | None]
"""Given an operation's place in the order and its name: the fault to make of it, if any."""


class FakeDisk:
    """The journal's Files, in memory."""

    def __init__(self, seed: int = 0) -> None:
        self.trace: list[str] = []
        """The names of the operations so far: `fsync game.jsonl 2` is the second fsync of that file."""
        self.plan: Plan = lambda _number, _name: None
        self._chance = random.Random(seed)
        self._names: dict[Path, Inode] = {}
        self._durable_names: dict[Path, Inode] = {}
        self._open: dict[int, tuple[Path, Inode]] = {}
        self._at: dict[int, int] = {}
        self._counts: dict[str, int] = {}
        self._next = 3
        self._off = False

    def _step(self, name: str) -> Fault | None:
        """Count the operation, and fail it if the plan says so; gives the fault back for a short write."""
        if self._off:
            raise PowerCut
        self._counts[name] = self._counts.get(name, 0) + 1
        self.trace.append(f"{name} {self._counts[name]}")
        fault = self.plan(len(self.trace) - 1, self.trace[-1])
        if fault and fault.power:
            self._off = True
            raise PowerCut
        if fault and not (fault.short and name.startswith("write")):
            raise OSError(fault.error, os.strerror(fault.error))
        return fault

    def open(self, path: Path, flags: int) -> int:
        self._step(f"open {path.name}")
        if path not in self._names:
            if not flags & os.O_CREAT:
                raise FileNotFoundError(errno.ENOENT, "no such file")
            self._names[path] = Inode()
        inode = self._names[path]
        if flags & os.O_TRUNC:
            inode.now.clear()
        self._next += 1
        self._open[self._next] = (path, inode)
        self._at[self._next] = 0
        return self._next

    def size(self, descriptor: int, path: Path) -> int:
        self._step(f"size {path.name}")
        if self._names.get(path) is not self._open[descriptor][1]:
            raise OSError(errno.ESTALE, "another file has the name")
        return len(self._open[descriptor][1].now)

    def read(self, descriptor: int, size: int) -> bytes:
        path, inode = self._open[descriptor]
        self._step(f"read {path.name}")
        start = self._at[descriptor]
        self._at[descriptor] = min(start + size, len(inode.now))
        return bytes(inode.now[start : start + size])

    def write(self, descriptor: int, data: bytes, at: int) -> int:
        path, inode = self._open[descriptor]
        if self._step(f"write {path.name}"):
            data = data[: len(data) // 2]
        inode.now[len(inode.now) :] = bytes(max(0, at - len(inode.now)))
        inode.now[at : at + len(data)] = data
        if data:
            inode.dirty.update(range(at // PAGE, (at + len(data) - 1) // PAGE + 1))
        return len(data)

    def truncate(self, descriptor: int, size: int) -> None:
        path, inode = self._open[descriptor]
        self._step(f"truncate {path.name}")
        del inode.now[size:]

    def fsync(self, descriptor: int) -> None:
        path, inode = self._open[descriptor]
        try:
            self._step(f"fsync {path.name}")
        except OSError:
            # What Linux does: pages that could not be written are marked clean, and never written again.
            self._persist(inode, self._some(inode.dirty), len(inode.durable))
            inode.dirty.clear()
            raise
        self._persist(inode, inode.dirty, len(inode.now))
        inode.dirty.clear()

    def rename(self, old: Path, new: Path) -> None:
        self._step(f"rename {old.name}")
        self._names[new] = self._names.pop(old)

    def close(self, descriptor: int) -> None:
        self._step(f"close {self._open[descriptor][0].name}")
        del self._open[descriptor]

    def sync_folder(self, folder: Path) -> None:
        self._step(f"sync_folder {folder.name}")
        self._durable_names = dict(self._names)

    def lose_power(self) -> None:
        """What was synced stays; of the rest, any page may have been written or not."""
        if self._chance.random() < 0.5:
            self._durable_names = dict(self._names)
        for inode in {
            id(one): one for one in (*self._names.values(), *self._durable_names.values())
        }.values():
            size = self._chance.choice([len(inode.durable), len(inode.now)])
            self._persist(inode, self._some(inode.dirty), size)
            inode.now = bytearray(inode.durable)
            inode.dirty.clear()
        self._names = dict(self._durable_names)
        self._open.clear()
        self._off = False

    def content(self, path: Path) -> bytes:
        """What a reader would find."""
        return bytes(self._names[path].now) if path in self._names else b""

    def files(self) -> dict[str, bytes]:
        """Every file by name."""
        return {path.name: bytes(inode.now) for path, inode in self._names.items()}

    def put(self, path: Path, data: bytes) -> None:
        """Have a file that was there long ago."""
        self._names[path] = self._durable_names[path] = Inode(bytearray(data), data)

    def _some(self, pages: set[int]) -> set[int]:
        return {page for page in sorted(pages) if self._chance.random() < 0.5}

    def _persist(self, inode: Inode, pages: set[int], size: int) -> None:
        """Write these pages; where the file grew past pages that were not written, there are zeros."""
        image = bytearray(inode.durable[:size].ljust(size, b"\0"))
        for page in pages:
            part = inode.now[page * PAGE : (page + 1) * PAGE]
            end = min(page * PAGE + len(part), size)
            if end > page * PAGE:
                image[page * PAGE : end] = part[: end - page * PAGE]
        inode.durable = bytes(image)
