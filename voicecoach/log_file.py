"""The log that somebody asks for to show what went wrong: a line of JSON for each thing that happened.

It holds the words that were heard, including people's talk, but no sound. Nothing is logged unless
`--log` names a file.
"""

from __future__ import annotations

import json
import logging
import os
import platform
import sys
import threading
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, suppress
from datetime import datetime
from importlib.metadata import version
from pathlib import Path
from typing import TextIO

from voicecoach.errors import Problem, shown, what_to_do, why
from voicecoach.value import Value

LOGGER = logging.getLogger("voicecoach")
LOGGER.addHandler(logging.NullHandler())
LOGGER.propagate = False


class _Lines(logging.Formatter):
    def format(self, record: logging.LogRecord) -> str:
        """One JSON object: when, on which thread, what, its details, and the traceback if there is one."""
        at = datetime.fromtimestamp(record.created).astimezone().isoformat(timespec="milliseconds")
        line = {"at": at, "thread": record.threadName, "what": record.getMessage()}
        line |= getattr(record, "details", {})
        if record.exc_info:
            line["traceback"] = self.formatException(record.exc_info)
        return json.dumps(line, default=_fields)


def _fields(value: object) -> object:
    """What a value holds, except what it leaves as usual."""
    return value.model_dump(mode="json", exclude_defaults=True) if isinstance(value, Value) else str(value)


class _Handler(logging.StreamHandler[TextIO]):
    def handleError(self, record: logging.LogRecord) -> None:  # noqa: N802 - the library's own name
        """Do nothing: a full disk must not stop a game, nor print a traceback into it."""


def note(what: str, **details: object) -> None:
    """Log what happened. Where no log was asked for, this costs next to nothing."""
    LOGGER.info(what, extra={"details": details})


def failed(what: str) -> None:
    """Log an error that is being handled, with its traceback."""
    LOGGER.exception(what)


@contextmanager
def logging_to(path: Path | None) -> Iterator[None]:
    """Append to this log while the block runs. The file is for the user alone.

    Args:
        path: The file; None to log nothing.

    Raises:
        Problem: The file can't be written.
    """
    if path is None:
        yield
        return
    try:
        handle = os.open(path, os.O_WRONLY | os.O_APPEND | os.O_CREAT, 0o600)
    except OSError as error:
        raise Problem(f"The log {shown(path)} can't be written: {why(error)}. {what_to_do(error)}") from None
    stream = os.fdopen(handle, "a", encoding="utf-8")
    handler = _Handler(stream)
    handler.setFormatter(_Lines())
    LOGGER.addHandler(handler)
    LOGGER.setLevel(logging.INFO)
    with ExitStack() as ending:
        ending.callback(_close, stream)
        ending.callback(LOGGER.removeHandler, handler)
        ending.push(_ended)
        _begin()
        yield


def _ended(_kind: type[BaseException] | None, problem: BaseException | None, _trace: object) -> None:
    """Log the error that ends the block, if one does. The caller is told of it all the same."""
    if isinstance(problem, Exception):
        LOGGER.error("ended by an error", exc_info=problem)


def _close(stream: TextIO) -> None:
    with suppress(OSError):  # the disk is full
        stream.close()


def _begin() -> None:
    """What is needed to reproduce a complaint: the versions, the system, and what was asked for."""
    versions = {name: version(name) for name in ("voicecoach", "vosk", "sounddevice", "numpy", "pyttsx3")}
    note(
        "begin",
        options=sys.argv[1:],
        versions=versions,
        python=platform.python_version(),
        system=platform.platform(),
        thread_count=threading.active_count(),
    )
