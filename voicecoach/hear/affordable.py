"""How many decodes a device can afford: from what one takes on it, and how much of a core may be used.

Processor time is measured, not the time that passes: whatever else is going on for the moment, as while a
machine starts, the same device then chooses alike.
"""

from __future__ import annotations

from pathlib import Path

from voicecoach.hear.decodes import LEAST, MOST
from voicecoach.value import Value

KEEPS_UP = 0.75
"""Of what may be used, so much at most goes into decoding while somebody speaks, by what the first utterance
takes; later ones take two thirds of that. The rest is the detector's, the voice's and the reading's.

With a quarter of a core, three decodes answered in 0.54 s in the median (`make bench-quota`)."""
CGROUPS = Path("/sys/fs/cgroup")
OF_THIS_PROCESS = Path("/proc/self/cgroup")


class Speed(Value):
    """What decoding takes on this device."""

    decode: float
    """Processor time that one decode takes for a second of speech, seconds."""
    core: float = 1.0
    """How much of one core may be used, 1 at most: less where the system sets a quota."""


def affordable(speed: Speed, ears: int = 1) -> int:
    """How many decodes count at a time, where so many people may speak at once."""
    each = speed.decode * ears / speed.core
    return max(LEAST, min(MOST, int(KEEPS_UP / each) if each > 0 else MOST))


def core(cgroups: Path = CGROUPS, of_this_process: Path = OF_THIS_PROCESS) -> float:
    """How much of one core Linux lets this process use: 1, unless a group that it is in has a smaller quota.

    Both forms of the kernel's control groups are read (`cpu.max`, and `cpu.cfs_quota_us` of the older form);
    on other systems, and where they can't be read, it is 1.
    """
    try:
        lines = of_this_process.read_text(encoding="ascii").splitlines()
    except (OSError, ValueError):
        return 1.0
    least = 1.0
    for line in lines:
        _, _, named = line.partition(":")
        controllers, _, group = named.partition(":")
        if group and controllers in ("", "cpu", "cpu,cpuacct"):
            root = cgroups / controllers if controllers else cgroups
            for folder in _with_parents(root, group):
                least = min(least, _quota(folder))
    return least


def _with_parents(root: Path, group: str) -> list[Path]:
    inner = root / group.strip("/")
    return [inner, *(folder for folder in inner.parents if folder == root or root in folder.parents)]


def _quota(folder: Path) -> float:
    """A group's quota, in cores; endless where it has none."""
    try:
        if (folder / "cpu.max").exists():
            quota, period = (folder / "cpu.max").read_text(encoding="ascii").split()
        else:
            quota, period = (
                (folder / f"cpu.cfs_{name}_us").read_text(encoding="ascii").strip()
                for name in ("quota", "period")
            )
        return float(quota) / float(period) if float(quota) > 0 else float("inf")
    except (OSError, ValueError, ZeroDivisionError):
        return float("inf")  # "max" is no figure
