"""What a running process costs, seen from outside: all its threads, and the helpers that it started."""

from __future__ import annotations

import os
import time
from pathlib import Path
from typing import NamedTuple

TICK_S = 1 / os.sysconf("SC_CLK_TCK")


class Cost(NamedTuple):
    """What it took over a stretch of time."""

    share: float
    """Of one core."""
    wakes: float
    """How often a second one of its threads slept and was woken."""
    memory_mb: float
    """At the end, proportional (PSS): what it shares with other processes counts by its part."""


class _Spent(NamedTuple):
    at_s: float
    work_s: float
    wakes: int


def cost_over(pid: int, seconds: float) -> Cost:
    """What the process takes from now on for so long."""
    before = _spent(pid)
    time.sleep(seconds)
    after = _spent(pid)
    took_s = after.at_s - before.at_s
    share, wakes = (after.work_s - before.work_s) / took_s, (after.wakes - before.wakes) / took_s
    return Cost(share, wakes, memory_mb(pid))


def memory_mb(pid: int) -> float:
    """Proportional memory (PSS): what it shares with other processes counts by its part, megabytes."""
    pages = [Path(f"/proc/{each}/smaps_rollup").read_text(encoding="ascii") for each in family(pid)]
    return (
        sum(int(line.split()[1]) for page in pages for line in page.splitlines() if line[:4] == "Pss:")
        / 1_024
    )


def family(pid: int) -> list[int]:
    """The process and all that come from it."""
    found = [pid]
    for each in found:
        for task in Path(f"/proc/{each}/task").iterdir():
            found += [int(child) for child in (task / "children").read_text(encoding="ascii").split()]
    return found


def _spent(pid: int) -> _Spent:
    work_s, wakes = 0.0, 0
    for each in family(pid):
        fields = Path(f"/proc/{each}/stat").read_text(encoding="utf-8").rpartition(")")[2].split()
        work_s += sum(map(int, fields[11:15])) * TICK_S  # its own, and of helpers that have ended
        for task in Path(f"/proc/{each}/task").iterdir():
            page = (task / "status").read_text(encoding="utf-8")
            wakes += next(int(line.split()[1]) for line in page.splitlines() if line.startswith("voluntary"))
    return _Spent(time.monotonic(), work_s, wakes)
