"""Keeps what sound libraries write on standard error away from the lines that a screen reader reads."""

import atexit
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def quiet_libraries() -> Iterator[None]:
    """Our own messages still go to standard error; what C libraries write there is thrown away.

    So is what they write at the very end of the program, when one of them complains about what is still in
    use.
    """
    kept, own = os.dup(2), sys.stderr
    nowhere = os.open(os.devnull, os.O_WRONLY)
    sys.stderr = os.fdopen(os.dup(2), "w", buffering=1, encoding="utf-8", errors="replace")
    os.dup2(nowhere, 2)
    try:
        yield
    finally:
        os.dup2(kept, 2)
        sys.stderr.close()
        sys.stderr = own
        os.close(kept)
        atexit.register(os.dup2, nowhere, 2)
