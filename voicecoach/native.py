"""The Debian packages the program and its tests stand on, and how they get there.

`python -m voicecoach.native program` (or `tests`) installs what is missing, where it may, and
otherwise prints the one line to run. It needs nothing but Python, since it may run before all else.
"""

import ctypes.util
import os
import platform
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import NamedTuple

APT_OPTIONS = (
    *("-o", "Acquire::http::Timeout=20", "-o", "Acquire::Retries=1"),
    *("-o", "APT::Keep-Downloaded-Packages=false"),  # what is installed takes no room twice
)
APT_S = 600.0


class Native(NamedTuple):
    """One Debian package, what it is for, and how to see whether it is there."""

    package: str
    purpose: str
    is_there: Callable[[], bool]


def _has_alsa_plugin() -> bool:
    return any(Path("/usr/lib").glob("*/alsa-lib/libasound_module_pcm_pulse.so"))


PORTAUDIO = Native(
    "libportaudio2", "microphone and headphones", lambda: ctypes.util.find_library("portaudio") is not None
)
ATOMIC = Native(
    "libatomic1",
    "the speech recogniser, and the tests' browser",
    lambda: ctypes.util.find_library("atomic") is not None,
)
NEEDS_ATOMIC = ("aarch64", "arm64", "armv7l")
"""Machines whose build of vosk stands on it; elsewhere only the driver of the tests' browser does."""
FOR_PROGRAM = (PORTAUDIO, ATOMIC) if platform.machine() in NEEDS_ATOMIC else (PORTAUDIO,)
FOR_TESTS = (
    Native("flite", "voices that tell the games of the tests", lambda: shutil.which("flite") is not None),
    Native("pulseaudio", "a sound server for the tests", lambda: shutil.which("pulseaudio") is not None),
    Native(
        "pulseaudio-utils", "playing into it and recording from it", lambda: shutil.which("parec") is not None
    ),
    Native("libasound2-plugins", "the way from PortAudio to it", _has_alsa_plugin),
    ATOMIC,
    Native("chromium", "a browser to test the coach's page in", lambda: shutil.which("chromium") is not None),
)
WANTED = {"program": FOR_PROGRAM, "tests": tuple(dict.fromkeys((*FOR_PROGRAM, *FOR_TESTS)))}


def missing(wanted: Iterable[Native]) -> tuple[Native, ...]:
    """Those of the packages that aren't there."""
    return tuple(native for native in wanted if not native.is_there())


def line_to_run(packages: Iterable[Native]) -> str:
    """The one line that installs the packages; where there is no sudo, root runs it."""
    order = f"apt-get install {' '.join(native.package for native in packages)}"
    return f"Run this: sudo {order}" if shutil.which("sudo") else f"As root, run this: {order}"


def install(packages: tuple[Native, ...]) -> bool:
    """Install through apt-get where that needs no question answered; True when all are there then."""
    prefix = _right_to_install()
    if prefix is None:
        return False
    names = [native.package for native in packages]
    _tell(f"Installing through apt-get: {' '.join(names)}")
    _apt_get(prefix, "update")
    _apt_get(prefix, "install", "--yes", "--no-install-recommends", *names)
    return not missing(packages)


def _apt_get(prefix: list[str], *order: str) -> None:
    """Run apt-get; it is quiet unless it fails."""
    try:
        done = subprocess.run(
            [*prefix, "apt-get", "--quiet", *APT_OPTIONS, *order],
            env={**os.environ, "DEBIAN_FRONTEND": "noninteractive"},
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            timeout=APT_S,
            check=False,
        )
    except (OSError, subprocess.TimeoutExpired) as error:
        _tell(f"apt-get failed: {error}")
        return
    if done.returncode:
        _tell(f"apt-get {order[0]} failed: {done.stderr.strip()}")


def _right_to_install() -> list[str] | None:
    """What to put before apt-get; None where it isn't there or would ask for a password."""
    if shutil.which("apt-get") is None:
        return None
    if os.geteuid() == 0:
        return []
    if shutil.which("sudo") is None:
        return None
    asked = subprocess.run(["sudo", "-n", "true"], stdin=subprocess.DEVNULL, capture_output=True, check=False)
    return ["sudo", "-n"] if asked.returncode == 0 else None


def _tell(line: str) -> None:
    print(line, file=sys.stderr, flush=True)


def main(wanted: str) -> None:
    """Install the Debian packages that the program, or its tests, want."""
    absent = missing(WANTED[wanted])
    if not absent or install(absent):
        return
    _tell("Some Debian packages are missing and can't be installed from here:")
    for native in absent:
        _tell(f"  {native.package}: {native.purpose}")
    _tell(line_to_run(absent))


if __name__ == "__main__":
    main(sys.argv[1])
