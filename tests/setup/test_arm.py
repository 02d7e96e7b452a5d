"""What `make arm` asks for and compares; the emulated run itself is too long for a test."""

from pathlib import Path

import pytest

from tests.arm.__main__ import compare, lines_of
from tests.arm.root import TOOLS, Root
from tests.arm.wheels import needed


def test_every_library_is_asked_for_those_that_libraries_need_among_them() -> None:
    names = dict(needed())
    assert names.keys() >= {"vosk", "numpy", "pydantic-core", "soxr", "srt", "cffi", "psutil"}
    assert names["vosk"] == "0.3.45"  # the one that has a wheel for Linux on ARM
    assert "pytest" not in names
    assert "voicecoach" not in names


def test_the_demo_is_compared_by_what_was_heard_and_not_by_where_files_are() -> None:
    here = lines_of("Heard: who holds\n\nThe journal is in out/first_end.jsonl.\nWe hold.\n")
    assert here == ["Heard: who holds", "We hold."]
    assert compare(here, here) == []
    assert compare(here, ["Heard: who hold", "We hold."]) == [
        "here: Heard: who holds / on ARM: Heard: who hold"
    ]
    assert compare(here, here[:1]) == ["2 lines here, 1 on ARM"]


def test_an_emulator_that_is_too_old_is_named_with_what_to_do(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("debootstrap", "proot", "qemu"):
        tool = tmp_path / name
        tool.write_text("#!/bin/sh\necho 'qemu-aarch64 version 7.2.22 (Debian)'\n")
        tool.chmod(0o755)
    monkeypatch.setenv("PATH", f"{tmp_path}:/usr/bin:/bin")
    monkeypatch.setattr("tests.arm.root.EMULATOR", "qemu")
    assert all(tool.is_there() for tool in TOOLS)
    with pytest.raises(SystemExit, match=r"older than 10.*make arm QEMU="):
        Root(tmp_path / "root").make()
    assert not (tmp_path / "root").exists()
