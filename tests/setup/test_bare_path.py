"""Continuous integration sees only what a bare Debian, the README and our own list of packages provide."""

import os
import runpy
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from voicecoach import places

ROOT = places.checkout() or Path()
SCRIPT = ROOT / ".ci" / "bare_path.py"


@pytest.fixture(scope="module")
def host(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder on the PATH with a program that nothing of ours installs."""
    folder = tmp_path_factory.mktemp("host")
    (folder / "espeak-ng").write_text("#!/bin/sh\n")
    (folder / "espeak-ng").chmod(0o755)
    return folder


@pytest.fixture(scope="module")
def bare(host: Path, tmp_path_factory: pytest.TempPathFactory) -> str:
    """The PATH of continuous integration on this machine."""
    order = [
        sys.executable,
        str(SCRIPT),
        str(tmp_path_factory.mktemp("bare") / "programs"),
    ]
    path = f"{host}{os.pathsep}{os.environ['PATH']}"
    done = subprocess.run(order, env={**os.environ, "PATH": path}, capture_output=True, text=True, check=True)
    return done.stdout.strip()


@pytest.mark.parametrize(
    "program", ["sh", "awk", "dpkg", "flite", "pulseaudio", "parec", "chromium", "python3"]
)
def test_what_the_set_up_installs_and_what_a_bare_debian_has_is_there(bare: str, program: str) -> None:
    assert shutil.which(program, path=bare)


def test_a_program_that_nothing_installs_is_not_there(bare: str, host: Path) -> None:
    assert shutil.which("espeak-ng", path=str(host))
    assert shutil.which("espeak-ng", path=bare) is None


def test_a_program_of_a_package_that_was_not_asked_for_is_not_there() -> None:
    found = runpy.run_path(str(SCRIPT))["programs"]({"flite"})
    assert "flite" in found
    assert Path("/usr/bin/env").exists()
    assert "env" not in found


def test_a_shell_with_this_path_finds_no_such_program(bare: str) -> None:
    order = [f"{bare}/sh", "-c", "command -v sh; command -v espeak-ng"]
    done = subprocess.run(order, env={"PATH": bare}, capture_output=True, text=True, check=False)
    assert done.stdout.split() == [f"{bare}/sh"]
    assert done.returncode != 0


def test_the_script_runs_the_tests_with_this_path() -> None:
    lines = (ROOT / ".ci" / "run").read_text().splitlines()
    assert lines[-4:] == [
        '"$PYTHON" -I voicecoach/native.py tests',
        'PATH=$("$PYTHON" .ci/bare_path.py out/programs)',
        "export PATH PYTHON",
        "exec make test",
    ]
