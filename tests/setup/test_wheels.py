"""A library that pip can't install is told with what to do; what pip says was recorded, pip 26.3."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from voicecoach import places
from voicecoach.wheels import Machine, advice

ROOT = places.checkout() or Path()
NO_WHEEL = """\
ERROR: Could not find a version that satisfies the requirement numpy==2.4.6 (from versions: none)
ERROR: No matching distribution found for numpy==2.4.6
"""
"""pip download --platform linux_armv7l --only-binary=:all: numpy==2.4.6"""
NOT_BUILT = """      building 'psutil._psutil_linux' extension
      error: [Errno 2] No such file or directory: '/nonexistent'
      [end of output]

  note: This error originates from a subprocess, and is likely not a problem with pip.
  ERROR: Failed building wheel for psutil
Failed to build psutil
ERROR: Failed to build one or more wheels
"""
"""CC=/nonexistent pip wheel --no-binary psutil psutil==7.2.2"""
OFFLINE = """WARNING: Retrying (Retry(total=0, connect=None, read=None, redirect=None, status=None)) after \
connection broken by 'NewConnectionError('<pip._vendor.urllib3.connection.HTTPSConnection object at \
0x7f3dcc6b5d10>: Failed to establish a new connection: [Errno -3] Temporary failure in name resolution')': \
/simple/vosk/
ERROR: Could not find a version that satisfies the requirement vosk==0.3.44 (from versions: none)
ERROR: No matching distribution found for vosk==0.3.44
"""
"""The same without a network."""
BOARD = Machine("aarch64", "Linux", "3.11", "glibc")
OLD_BOARD = BOARD._replace(processor="armv7l")


@pytest.mark.parametrize(
    ("said", "machine", "name", "remedy"),
    [
        (NO_WHEEL, OLD_BOARD, "numpy", "put a 64-bit system on this board"),
        (NOT_BUILT, OLD_BOARD, "psutil", "put a 64-bit system on this board"),
        (NO_WHEEL, BOARD, "numpy", "Use a Python that it is built for"),
        (NOT_BUILT, BOARD, "psutil", "apt-get install build-essential python3-dev cmake"),
        (NO_WHEEL, BOARD._replace(libc=""), "numpy", "such as Debian"),
        (NO_WHEEL, BOARD._replace(processor="arm64", system="Darwin", libc=""), "numpy", "3.10 to 3.14"),
    ],
)
def test_a_package_that_is_not_to_be_had_is_named_with_what_to_do(
    said: str, machine: Machine, name: str, remedy: str
) -> None:
    told = advice(said, machine)
    assert told.startswith(f"No built package for this machine: {name}.")
    assert machine.processor in told
    assert remedy in told


def test_where_there_is_no_network_no_package_is_blamed() -> None:
    told = advice(OFFLINE, BOARD)
    assert "no network" in told
    assert "vosk" not in told


def test_other_failures_are_left_to_pip() -> None:
    assert (
        advice("ERROR: Could not install packages due to an OSError: [Errno 28] No space left", BOARD) == ""
    )


@pytest.mark.parametrize(("said", "told"), [(NO_WHEEL, "numpy"), (OFFLINE, "there is no network")])
def test_the_set_up_shows_what_pip_said_and_then_what_to_do(tmp_path: Path, said: str, told: str) -> None:
    for name in ("Makefile", "pyproject.toml", "constraints.txt"):
        shutil.copy(ROOT / name, tmp_path)
    (tmp_path / "voicecoach").mkdir()
    for name in ("__init__.py", "wheels.py"):
        shutil.copy(places.PACKAGE / name, tmp_path / "voicecoach")
    (tmp_path / ".venv" / "bin").mkdir(parents=True)
    (tmp_path / ".venv" / "bin" / "python").symlink_to(sys.executable)
    (tmp_path / ".venv" / "made").touch()
    (tmp_path / "said").write_text(said)
    (tmp_path / "pip").write_text("#!/bin/sh\ncat said >&2\nexit 1\n")
    (tmp_path / "pip").chmod(0o755)
    made = subprocess.run(
        ["make", "PIP=./pip", ".venv/program"],
        cwd=tmp_path,
        env={"PATH": os.environ["PATH"]},
        capture_output=True,
        text=True,
        check=False,
    )
    assert made.returncode != 0
    assert not (tmp_path / ".venv" / "program").exists()
    assert said.splitlines()[-1] in made.stderr
    assert told in made.stderr.split(said.splitlines()[-1], 1)[1]
    assert "Traceback" not in made.stderr
