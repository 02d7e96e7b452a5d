"""Tells how far a download has come: by a bar in a terminal, by a few plain lines anywhere else."""

import sys
import time
from types import TracebackType
from typing import Protocol

import click

LINE_EVERY_S = 5.0
"""Plain lines come seldom, since a screen reader reads each one out."""


class Progress(Protocol):
    """Counts bytes as they come."""

    def add(self, size: int) -> None:
        """Count the bytes that have just come."""


class Silent:
    """Progress that nobody needs to see."""

    def add(self, size: int) -> None:
        """Say nothing."""


class Shown:
    """Progress on standard error; a context manager."""

    def __init__(self, label: str, total_bytes: int | None, *, plain: bool | None = None) -> None:
        self.label = label
        self.total = total_bytes
        self.done = 0
        self.plain = not sys.stderr.isatty() if plain is None else plain
        self.said_at = time.monotonic()

    def __enter__(self) -> "Shown":
        """Begin."""
        if not self.plain:
            from tqdm import tqdm  # noqa: PLC0415 - only a terminal needs it

            self.bar = tqdm(total=self.total, unit="B", unit_scale=True, desc=self.label, leave=False)
        return self

    def add(self, size: int) -> None:
        """Count the bytes that have just come."""
        self.done += size
        if not self.plain:
            self.bar.update(size)
        elif time.monotonic() - self.said_at >= LINE_EVERY_S:
            self.said_at = time.monotonic()
            click.echo(f"{self.label}: {self._so_far()}", err=True)

    def _so_far(self) -> str:
        done = f"{self.done / 1e6:.0f}"
        return f"{done} of {self.total / 1e6:.0f} megabytes" if self.total else f"{done} megabytes"

    def __exit__(self, *exception: type[BaseException] | BaseException | TracebackType | None) -> None:
        """Take the bar away."""
        if not self.plain:
            self.bar.close()
