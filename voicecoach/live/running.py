"""A mark that the program runs: found at the next start, it tells that the last run failed.

It names the system's own start, so that a flat battery isn't taken for a failure of the program.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

import psutil

BOOT = Path("/proc/sys/kernel/random/boot_id")
"""Linux's own name for the time since the machine was started (proc(5), from memory)."""


@contextmanager
def marked(file: Path) -> Iterator[bool]:
    """Keep the mark while the block runs; it stays where the program dies in it, or a problem ends it.

    Where it can't be kept, the program runs as well.

    Yields:
        True when a run since the machine was started did not come to its end.
    """
    boot = _boot()
    failed = False
    with suppress(OSError, UnicodeDecodeError):
        failed = file.exists() and file.read_text(encoding="utf-8") == boot
    with suppress(OSError):
        file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        file.write_text(boot, encoding="utf-8")
    yield failed
    with suppress(OSError):
        file.unlink(missing_ok=True)


def _boot() -> str:
    try:
        return BOOT.read_text(encoding="utf-8").strip()
    except OSError:
        return str(round(psutil.boot_time()))
