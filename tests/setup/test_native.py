"""Debian packages are installed where that asks nothing; otherwise the one line to run is printed."""

import io
import os
from contextlib import redirect_stderr
from pathlib import Path

import pytest

from voicecoach import native
from voicecoach.native import Native


@pytest.fixture
def bin_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The only folder on the PATH; one wanted package, which is missing until it is installed."""
    installed = tmp_path / "libwanted"
    wanted = Native("libwanted", "to be wanted", installed.exists)
    there = Native("libthere", "to be there", lambda: True)
    monkeypatch.setattr(native, "WANTED", {"program": (wanted, there), "tests": (there,)})
    monkeypatch.setenv("PATH", str(tmp_path / "bin"))
    (tmp_path / "bin").mkdir()
    return tmp_path / "bin"


def _program(folder: Path, name: str, script: str) -> None:
    (folder / name).write_text(f"#!/bin/sh\n{script}\n")
    (folder / name).chmod(0o755)


def _run(wanted: str) -> str:
    with redirect_stderr(io.StringIO()) as said:
        native.main(wanted)
    return said.getvalue()


def test_root_installs_only_what_is_missing(bin_folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    _program(
        bin_folder, "apt-get", f'printf "%s\\n" "$*" >> {bin_folder}/orders; : > {bin_folder}/../libwanted'
    )
    assert _run("program") == "Installing through apt-get: libwanted\n"
    update, install = (bin_folder / "orders").read_text().splitlines()
    assert update.endswith(" update")
    assert install.endswith(" install --yes --no-install-recommends libwanted")


def test_what_is_there_is_left_alone(bin_folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    _program(bin_folder, "apt-get", f": > {bin_folder}/called")
    assert _run("tests") == ""
    assert not (bin_folder / "called").exists()


def test_sudo_that_asks_nothing_will_do(bin_folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 1000)
    _program(bin_folder, "sudo", f'printf "%s\\n" "$*" >> {bin_folder}/orders; : > {bin_folder}/../libwanted')
    _program(bin_folder, "apt-get", "exit 1")
    assert _run("program") == "Installing through apt-get: libwanted\n"
    asked, update, install = (bin_folder / "orders").read_text().splitlines()
    assert asked == "-n true"
    assert update.startswith("-n apt-get ")
    assert install.endswith(" libwanted")


@pytest.mark.parametrize("sudo", [None, "exit 1"], ids=["no sudo", "sudo asks for a password"])
def test_without_the_right_the_one_line_to_run_is_printed(
    bin_folder: Path, monkeypatch: pytest.MonkeyPatch, sudo: str | None
) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 1000)
    _program(bin_folder, "apt-get", "exit 1")
    if sudo:
        _program(bin_folder, "sudo", sudo)
    said = _run("program")
    assert "libwanted: to be wanted" in said
    line = (
        "Run this: sudo apt-get install libwanted" if sudo else "As root, run this: apt-get install libwanted"
    )
    assert said.splitlines()[-1] == line
    assert "libthere" not in said


def test_an_apt_get_that_fails_says_why_and_the_line_is_printed(
    bin_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    _program(bin_folder, "apt-get", "echo 'E: no network' >&2; exit 100")
    said = _run("program")
    assert "apt-get update failed: E: no network" in said
    assert said.splitlines()[-1] == "As root, run this: apt-get install libwanted"
