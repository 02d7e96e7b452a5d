"""`voicecoach setup --at-start` and `--not-at-start`: shown, asked, and done as the user, never as root."""

from __future__ import annotations

import tempfile
from pathlib import Path

import click

from voicecoach import at_start as starting
from voicecoach.errors import Problem
from voicecoach.printed import put

LINGER = "To start it at power-up, before anybody logs in, run once: loginctl enable-linger"


def at_start() -> None:
    """Show the unit, ask, and write it.

    Raises:
        Problem: This user or this system can't have it, systemd finds a fault in it, or it can't be written.
    """
    starting.refuse_where_it_cannot_be()
    text, file = starting.unit(), starting.place()
    with tempfile.TemporaryDirectory() as folder:
        wrong = starting.faults(text, Path(folder))
    if wrong:
        raise Problem(f"systemd finds a fault in what would be written: {wrong}. Nothing was changed.")
    put(f"This would be written to {file}:")
    put(text)
    if not click.confirm("Start voicecoach by itself when you log in?", default=False):
        put("Nothing was changed.")
        return
    starting.write(text, file)
    put("voicecoach starts by itself when you next log in. To undo that: voicecoach setup --not-at-start")
    put(LINGER)


def not_at_start() -> None:
    """Take the unit away.

    Raises:
        Problem: This user or this system can't have it, or it can't be removed.
    """
    starting.refuse_where_it_cannot_be()
    file = starting.place()
    if starting.remove(file):
        put(f"{file} is removed: voicecoach no longer starts by itself.")
    else:
        put("voicecoach does not start by itself: there is nothing to remove.")
