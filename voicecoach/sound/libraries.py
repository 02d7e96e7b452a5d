"""Loading the libraries with parts in C: what keeps one from being loaded is told with its remedy."""

from __future__ import annotations

import builtins
import importlib
import importlib.util
import re
import sys
import threading
from types import ModuleType
from typing import Any

from voicecoach.errors import Problem

PACKAGES = {
    "libatomic.so.1": "libatomic1",
    "libgomp.so.1": "libgomp1",
    "libportaudio.so.2": "libportaudio2",
    "libstdc++.so.6": "libstdc++6",
}
"""The Debian package in which each library of the system is that those in the wheels need."""


SPARED = {"vosk": ("requests", "srt", "tqdm", "urllib.request")}
"""What a library loads for things that are never asked of it.

vosk fetches models and writes subtitles with these: 10 MB, and a twentieth of a second at each start.
"""
_LOADING = threading.RLock()


class LibraryProblem(Problem):
    """A library can't be loaded."""


def library(name: str) -> Any:
    """Load a library.

    Raises:
        LibraryProblem: It can't be loaded; the message says why and what to install.
    """
    try:
        with _LOADING:
            if name in SPARED and name not in sys.modules:
                return _without(SPARED[name], name)
            return importlib.import_module(name)
    except (ImportError, OSError) as problem:
        raise LibraryProblem(f"The library {name} can't be loaded. {remedy(name, str(problem))}") from problem


class Spared:
    """Stands in for a library that isn't loaded."""

    def __init__(self, name: str) -> None:
        self._name = name

    def __getattr__(self, _: str) -> Spared:
        return self

    def __call__(self, *_: object, **__: object) -> object:
        """Say that nobody can call it."""
        raise RuntimeError(f"{self._name} isn't loaded")


def _without(spared: tuple[str, ...], name: str) -> ModuleType:
    """Import a library while these aren't there for it; for everything else they are what they were."""

    def load(wanted: str, *about: Any) -> object:
        return Spared(wanted) if wanted in spared else builtins.__import__(wanted, *about)

    spec = importlib.util.find_spec(name)
    if spec is None or spec.loader is None:
        raise ImportError(f"there is no {name}")
    module = importlib.util.module_from_spec(spec)
    module.__dict__["__builtins__"] = {**vars(builtins), "__import__": load}
    sys.modules[name] = module
    try:
        spec.loader.exec_module(module)
    except BaseException:
        del sys.modules[name]
        raise
    return module


def remedy(name: str, reason: str) -> str:
    """What keeps it from being loaded, and what to do about it."""
    missing = re.match(r"(lib\S+?\.so[\d.]*): cannot open", reason)
    if missing and missing[1] in PACKAGES:
        return f"It needs {missing[1]}. On Debian: apt-get install {PACKAGES[missing[1]]}"
    return (
        f"The reason: {reason.rstrip('.') or 'none was given'}. "
        f"Install it again: pip install --force-reinstall {name.replace('_', '-')}"
    )
