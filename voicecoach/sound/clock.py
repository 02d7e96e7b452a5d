"""A clock that goes on while the computer sleeps."""

import sys
import time


def now_s() -> float:
    """Seconds since some moment. This clock is never set back.

    Python's own monotonic clock stands still while a computer sleeps, on Linux and on macOS: a question
    would stay open all that time, and an utterance would go on after it.
    """
    if sys.platform == "linux":
        return time.clock_gettime(time.CLOCK_BOOTTIME)
    if sys.platform == "darwin":
        return time.clock_gettime(time.CLOCK_MONOTONIC)
    return time.monotonic()
