"""What takes long to work out is kept in the user's cache, and worked out anew whenever there is any doubt.

Plain JSON: whatever stands in the file, reading it can run nothing. Its first line names what it was worked
out from and holds a hash of the rest, so that an older one, one cut short and one altered by a failing disk
are all worked out again. Where nothing can be kept, nothing is said: it only takes longer.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from typing import Any, TypeVar

from voicecoach.errors import Problem
from voicecoach.whole_file import replacing

T = TypeVar("T")
LARGEST = 20_000_000
"""Bytes of a file that is read; those kept today have a fiftieth of it."""


def kept(path: Path, key: str, work_out: Callable[[], Any], use: Callable[[Any], T]) -> T:
    """What `use` makes of the data, which is read from the file or else worked out and kept there.

    Args:
        path: The file.
        key: A hash of all that the data is worked out from; with another one it is worked out again.
        work_out: Works the data out; they must be such as JSON can hold.
        use: Makes of the data what is wanted. A mistake that it finds in what was kept counts as doubt.
    """
    with suppress(OSError, ValueError, LookupError, TypeError, AttributeError, RecursionError):
        return use(_read(path, key))
    data = work_out()
    with suppress(OSError, Problem):
        _write(path, key, data)
    return use(data)


def _read(path: Path, key: str) -> Any:
    with path.open("rb") as file:
        first, body = file.readline(200), file.read(LARGEST)
    if first != _first_line(key, body):
        raise ValueError("it was kept of something else, or isn't whole")
    return json.loads(body)


def _write(path: Path, key: str, data: Any) -> None:
    body = json.dumps(data, ensure_ascii=False, separators=(",", ":")).encode()
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    with replacing(path) as file:
        file.write(_first_line(key, body) + body)


def _first_line(key: str, body: bytes) -> bytes:
    return f"{key} {sha256(body).hexdigest()}\n".encode()
