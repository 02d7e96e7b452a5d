"""Processor time of this process, so that a busy machine doesn't count against it."""

from __future__ import annotations

import time
from collections.abc import Callable


def processor_s(work: Callable[[], object], tries: int = 1) -> float:
    """Processor time that something takes, seconds; of several tries the quickest."""
    spent_s = []
    for _ in range(tries):
        before = time.process_time()
        work()
        spent_s.append(time.process_time() - before)
    return min(spent_s)
