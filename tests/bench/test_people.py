"""People's own recordings: figures that answer a question, and talk; here in a voice that is made."""

import subprocess
from pathlib import Path

import pytest
from click.testing import CliRunner

from tests.bench.hearing.people import main
from voicecoach.hear.recordings import load


def spoken(folder: Path, name: str, text: str) -> Path:
    path = folder / f"{name}.wav"
    subprocess.run(["flite", "-voice", "rms", "-t", text, "-o", str(path)], check=True)
    return path


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    spoken(tmp_path, "5_anne_0", "five")
    spoken(tmp_path, "8_anne_4", "nine")
    spoken(tmp_path, "6_anne_5", "six")  # counted from five on: not for testing
    talk = spoken(tmp_path, "talk", "it looks like rain again, shall we have a cup of tea first?")
    whole = (load(talk) * 32_767).astype("<i2")
    (tmp_path / "raw.raw").write_bytes(whole.tobytes())
    spoken(tmp_path, "note", "our second, eighty centimetres, two o'clock")
    (tmp_path / "broken.wav").write_bytes(b"RIFF")
    return tmp_path


def test_figures_are_counted_by_speaker_and_talk_that_is_filed_is_named(folder: Path) -> None:
    result = CliRunner().invoke(main, [str(folder), "--condition", "clean"], catch_exceptions=False)
    lines = [line.strip() for line in result.output.splitlines()]
    assert "8_anne_4.wav: taken for 9.0" in lines
    assert "anne: 2 recordings: right 50.0 %, wrong 50.0 %" in lines
    assert "all figures: 2 recordings: right 50.0 %, wrong 50.0 %" in lines
    (filed,) = [line for line in lines if ": filed:" in line]
    assert filed.startswith("note.wav: filed:")
    assert "hour=2.0" in filed
    assert lines[-1].startswith("3 recordings of talk,")
    assert lines[-1].endswith("filed 1, asked about 0")
    assert any(line.startswith("passed over: The recording") and "broken.wav" in line for line in lines)
