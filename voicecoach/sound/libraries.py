"""Loading the libraries with parts in C: what keeps one from being loaded is told with its remedy."""

from __future__ import annotations

import importlib
import re
from typing import Any

from voicecoach.errors import Problem

PACKAGES = {
    "libatomic.so.1": "libatomic1",
    "libgomp.so.1": "libgomp1",
    "libportaudio.so.2": "libportaudio2",
    "libstdc++.so.6": "libstdc++6",
}
"""The Debian package in which each library of the system is that those in the wheels need."""


class LibraryProblem(Problem):
    """A library can't be loaded."""


def library(name: str) -> Any:
    """Load a library.

    Raises:
        LibraryProblem: It can't be loaded; the message says why and what to install.
    """
    try:
        return importlib.import_module(name)
    except (ImportError, OSError) as problem:
        raise LibraryProblem(f"The library {name} can't be loaded. {remedy(name, str(problem))}") from problem


def remedy(name: str, reason: str) -> str:
    """What keeps it from being loaded, and what to do about it."""
    missing = re.match(r"(lib\S+?\.so[\d.]*): cannot open", reason)
    if missing and missing[1] in PACKAGES:
        return f"It needs {missing[1]}. On Debian: apt-get install {PACKAGES[missing[1]]}"
    return (
        f"The reason: {reason.rstrip('.') or 'none was given'}. "
        f"Install it again: pip install --force-reinstall {name.replace('_', '-')}"
    )
