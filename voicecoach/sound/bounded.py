"""Calls that must not hang. PortAudio's can hang for ever, on a device that has just gone away."""

import threading
from collections.abc import Callable


def stuck_after(seconds: float, call: Callable[[], object]) -> threading.Thread | None:
    """Make the call and wait for it; None when it ended in time, else the thread that still hangs in it.

    What the call raises is raised here, if it ends in time.
    """
    raised: list[BaseException] = []

    def attempt() -> None:
        try:
            call()
        except BaseException as problem:  # handed over to the caller's thread
            raised.append(problem)

    thread = threading.Thread(target=attempt, name="bounded call", daemon=True)
    thread.start()
    thread.join(seconds)
    if raised:
        raise raised[0]
    return thread if thread.is_alive() else None
