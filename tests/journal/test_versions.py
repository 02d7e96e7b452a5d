"""What a newer program wrote is never guessed at: it stops with the line's number."""

import json
import zlib
from pathlib import Path
from typing import Any

import pytest

from tests.journal.entries import entries, entry
from voicecoach.errors import DataProblem
from voicecoach.journal import open_journal, read
from voicecoach.journal.line import encode


def _line(body: dict[str, Any]) -> bytes:
    text = json.dumps(body, separators=(",", ":")).encode()[1:]
    return b'{"check":"%08x",%s\n' % (zlib.crc32(text), text)


def _body(number: int) -> dict[str, Any]:
    return {"version": 1, "entry": entry(number).model_dump(mode="json")}


def _newer_version(body: dict[str, Any]) -> None:
    body["version"] = 2


def _no_version(body: dict[str, Any]) -> None:
    body["edition"] = body.pop("version")


def _unknown_kind(body: dict[str, Any]) -> None:
    body["entry"]["note"]["kind"] = "bowl_polished"


def _unknown_outcome(body: dict[str, Any]) -> None:
    body["entry"]["outcome"] = "sung"


def _unknown_field(body: dict[str, Any]) -> None:
    body["entry"]["weather"] = "windy"


def test_a_line_made_by_hand_to_the_documented_form_is_read(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    path.write_bytes(_line(_body(1)) + _line(_body(2)))
    assert read(path) == (entries(2), None)


@pytest.mark.parametrize("last", [True, False], ids=["last line", "within"])
@pytest.mark.parametrize(
    ("change", "said"),
    [
        (_newer_version, "Line 2 .* its version is 2, and this program knows version 1"),
        (_no_version, "Line 2 .* its version is unknown"),
        (_unknown_kind, 'Line 2 .* its kind of note, "bowl_polished", is unknown'),
        (_unknown_outcome, r"Line 2 .* something unknown \(outcome: "),
        (_unknown_field, r"Line 2 .* something unknown \(weather: "),
    ],
)
def test_a_sound_line_of_an_unknown_version_or_kind_stops_even_at_the_end(
    tmp_path: Path, change: Any, said: str, last: bool
) -> None:
    body = _body(2)
    change(body)
    content = encode(entry(1)) + _line(body) + (b"" if last else encode(entry(3)))
    path = tmp_path / "game.jsonl"
    path.write_bytes(content)
    for open_or_read in (open_journal, read):
        with pytest.raises(DataProblem, match=said) as told:
            open_or_read(path)
        assert told.value.exit_status == 5
        assert "newer voicecoach" in str(told.value)
    assert path.read_bytes() == content
