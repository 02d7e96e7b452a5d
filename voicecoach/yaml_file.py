"""Reads the YAML files that people write: plain data, and no more of it than a person would write."""

from pathlib import Path
from typing import Any

import yaml

from voicecoach.errors import DataProblem
from voicecoach.printed import plain

_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
DEEPEST = 12
"""How deep lists may be nested; nothing that is read here goes deeper than four."""
MOST = 200_000
"""How many pieces of YAML a file may have; a long game as a story has some thousands."""

_UNREAD: dict[type[OSError], str] = {
    FileNotFoundError: "there is no such file",
    PermissionError: "this user may not read it",
    IsADirectoryError: "it is a folder",
}


def read_yaml(path: Path, largest: int, what: str) -> Any:
    """The data in a file; None when there is none in it.

    Args:
        path: The file.
        largest: How many bytes it may have.
        what: What it is, to begin a message with: "The game file".

    Raises:
        DataProblem: It can't be read, is no YAML, or is more than plain data.
    """
    try:
        with path.open("rb") as file:
            text = file.read(largest + 1)
        if len(text) > largest:
            raise ValueError(f"it is larger than {largest} bytes")
        _refuse_tricks(text)
        return yaml.load(text, _Loader)
    except (OSError, yaml.YAMLError, ValueError, ArithmeticError, LookupError, TypeError) as problem:
        # Besides its own errors the library lets through Python's about a date or figure that isn't one.
        reason = plain(_reason(problem)).rstrip(".")
        raise DataProblem(f"{what} {plain(str(path))} can't be read: {reason}. Put that right.") from problem


def _reason(problem: Exception) -> str:
    """Why it can't be read, in plain words, without names from the library or numbers from the system."""
    if isinstance(problem, OSError):
        known = (words for kind, words in _UNREAD.items() if isinstance(problem, kind))
        return next(known, (problem.strerror or "the system gives no reason").lower())
    mark = getattr(problem, "problem_mark", None)
    if mark is not None:
        what = getattr(problem, "problem", None) or "it isn't written as YAML is"
        return f"line {mark.line + 1}, column {mark.column + 1}: {what}"
    if isinstance(problem, yaml.YAMLError | UnicodeError):
        return "it isn't plain text"
    return str(problem)


def _refuse_tricks(text: bytes) -> None:
    """Stop before anything is built, since a few lines of YAML can be made to fill the memory."""
    depth = 0
    for count, event in enumerate(yaml.parse(text, _Loader)):
        depth += isinstance(event, yaml.CollectionStartEvent) - isinstance(event, yaml.CollectionEndEvent)
        if depth > DEEPEST or count > MOST:
            raise ValueError("it is nested too deep, or too long")
        if (
            isinstance(event, yaml.AliasEvent)
            or getattr(event, "anchor", None)
            or getattr(event, "tag", None)
        ):
            raise ValueError("anchors, aliases and tags aren't taken: it must be plain data")
