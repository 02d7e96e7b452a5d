r"""One line of the journal, as bytes: `{"check":"8 hex digits","version":1,"entry":{...}}`.

The check covers the raw bytes from `"version"` on. So it needs no second serialising, and no flipped bit
passes it, not even one in the version.
"""

import json
import re
import zlib

from pydantic import ValidationError
from pydantic_core import ErrorDetails, PydanticSerializationError

from voicecoach.errors import DataProblem
from voicecoach.journal.values import VERSION
from voicecoach.session.values import Entry

MAX_LINE = 4 * 1024 * 1024
"""Bytes in the longest line that is written or read, including its line feed."""

_OPENING = b'{"check":"'
_CHECK_END = len(_OPENING) + 8
_BODY = _CHECK_END + 2
_VERSION = b'"version":%d,"entry":' % VERSION
_NO_TEXT = re.compile(rb"[\x01-\x1f\x7f]")
_ANY_VERSION = re.compile(rb'"version":(\d{1,9}),')


class BrokenLine(Exception):
    """The line isn't as it was written: its check fails, or it was never whole."""


def encode(entry: Entry) -> bytes:
    """The line for an entry, with its line feed. Raises DataProblem for one that couldn't be read back."""
    text = _text(entry)
    if text is None:
        raise DataProblem(
            f"Note {entry.number} can't be kept in the journal: it holds something that isn't a plain "
            "number or text. Say it again in other words."
        )
    body = _VERSION + text.encode() + b"}"
    line = b'%s%08x",%s\n' % (_OPENING, zlib.crc32(body), body)
    if len(line) > MAX_LINE:
        raise DataProblem(f"Note {entry.number} is too long for the journal. Say it again in fewer words.")
    return line


def _text(entry: Entry) -> str | None:
    """The entry as JSON; None for one that couldn't be read back."""
    # JSON has no NaN or infinity. Such a figure would be written as null and be lost.
    try:
        text = entry.model_dump_json()
        return text if Entry.model_validate_json(text) == entry else None
    except (PydanticSerializationError, ValidationError):  # the first for half a UTF-16 pair
        return None


def decode(line: bytes) -> Entry:
    """The entry in a line without its line feed.

    Raises BrokenLine for a damaged line, and DataProblem for a sound one of an unknown version or kind.
    """
    body = line[_BODY:]
    if line[:_BODY] != b'%s%08x",' % (_OPENING, zlib.crc32(body)):
        raise BrokenLine
    if not body.startswith(_VERSION):
        raise DataProblem(_unknown_version(body))
    try:
        return Entry.model_validate_json(body[len(_VERSION) : -1])
    except ValidationError as error:
        raise DataProblem(_unknown_content(error.errors(include_url=False)[0])) from None


def hides_sound_line(line: bytes) -> bool:
    """Whether a broken line ends in a sound one, because the line feed between the two was damaged."""
    # Within a line's text every quotation mark is escaped, so the opening can't occur there.
    start = line.rfind(_OPENING)
    try:
        return start > 0 and bool(decode(line[start:]))
    except BrokenLine:
        return False
    except DataProblem:
        return True


def looks_ours(start: bytes) -> bool:
    """Whether a file's start, without a sound line in it, can be what is left of a journal's first line."""
    rest = start.strip(b"\0\r\n")
    # Two marks, so that one flipped byte can't hide both.
    if _OPENING.startswith(rest[: len(_OPENING)]) or b',"entry":{' in rest[:64] or b'"check":"' in rest[:64]:
        return True
    # A loss of power can leave zeros in place of blocks of the line, including its first.
    return start.startswith(b"\0") and len(start) <= MAX_LINE and not _NO_TEXT.search(rest)


def _unknown_version(body: bytes) -> str:
    found = _ANY_VERSION.match(body)
    version = found.group(1).decode() if found else "unknown"
    return f"its version is {version}, and this program knows version {VERSION}"


def _unknown_content(error: ErrorDetails) -> str:
    if error["type"] == "union_tag_invalid":
        return f"its kind of note, {json.dumps(error['ctx']['tag'])}, is unknown"
    where = ".".join(str(part) for part in error["loc"])
    return f"it holds something unknown ({where}: {error['msg']})"
