"""Starting by itself: the unit, what systemd says of it, the asking, and who is refused."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from voicecoach import at_start
from voicecoach.errors import Problem

AS_A_USER = ("unshare", "--user", "--map-user=1000", "--map-group=1000") if os.geteuid() == 0 else ()
"""Root takes the number of an ordinary user, in a namespace of its own (unshare(1), user_namespaces(7))."""
SETUP = (sys.executable, "-m", "voicecoach", "setup")


def as_a_user(home: Path, *options: str, answer: str = "") -> subprocess.CompletedProcess[str]:
    """The command as an ordinary user runs it, with a home of its own."""
    return subprocess.run(
        [*AS_A_USER, *SETUP, *options],
        input=answer,
        capture_output=True,
        text=True,
        env={**os.environ, "HOME": str(home), "XDG_CONFIG_HOME": str(home / ".config")},
        check=False,
    )


def test_systemd_itself_finds_no_fault_in_the_unit(tmp_path: Path) -> None:
    assert shutil.which("systemd-analyze"), "systemd-analyze is missing: apt-get install systemd"
    assert at_start.faults(at_start.unit(), tmp_path) == ""
    assert at_start.faults(at_start.unit('/no/quo"te/python'), tmp_path) != ""
    broken = at_start.unit().replace("Restart=on-failure", "Restart=perhaps")
    assert "perhaps" in at_start.faults(broken, tmp_path)
    assert at_start.faults(at_start.unit("/no/such/python"), tmp_path) != ""


@pytest.mark.parametrize("name", ["with a space", "100%", "a$HOME", "semi;colon"])
def test_systemd_finds_the_interpreter_whatever_its_folder_is_called(tmp_path: Path, name: str) -> None:
    folder = tmp_path / name
    folder.mkdir()
    (folder / "python").symlink_to(sys.executable)
    assert at_start.faults(at_start.unit(str(folder / "python")), tmp_path) == ""


def test_it_is_written_and_enabled_and_taken_away_without_a_trace(tmp_path: Path) -> None:
    file = tmp_path / "systemd" / "user" / at_start.NAME
    at_start.write(at_start.unit(), file)
    at_start.write(at_start.unit(), file)
    link = file.parent / "default.target.wants" / at_start.NAME
    assert link.resolve() == file
    assert file.read_text(encoding="utf-8") == at_start.unit()
    assert at_start.remove(file)
    assert not at_start.remove(file)
    assert not os.path.lexists(link)
    assert not file.exists()


def test_it_is_shown_and_asked_before_it_is_written(tmp_path: Path) -> None:
    home = tmp_path
    file = home / ".config" / "systemd" / "user" / at_start.NAME
    refused = as_a_user(home, "--at-start", answer="\n")
    assert refused.returncode == 0, refused.stderr
    assert at_start.unit().strip() in refused.stdout
    assert "Nothing was changed." in refused.stdout
    assert not file.exists()
    written = as_a_user(home, "--at-start", answer="y\n")
    assert written.returncode == 0, written.stderr
    assert file.read_text(encoding="utf-8") == at_start.unit()
    removed = as_a_user(home, "--not-at-start")
    assert f"{file} is removed" in removed.stdout
    assert not file.exists()
    assert "nothing to remove" in as_a_user(home, "--not-at-start").stdout


def test_root_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    with pytest.raises(Problem, match="without sudo"):
        at_start.refuse_where_it_cannot_be()
