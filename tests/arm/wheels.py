"""Every library that the program needs, as a wheel for 64-bit ARM: asked of pip, one by one."""

from __future__ import annotations

import shutil
import subprocess
import sys
from collections.abc import Iterator
from collections.abc import Set as AbstractSet
from importlib.metadata import PackageNotFoundError, distribution
from pathlib import Path
from typing import NamedTuple

from packaging.markers import default_environment
from packaging.requirements import Requirement

from voicecoach.wheels import Machine, advice

PROCESSOR = "aarch64"
GLIBC = 36
"""Debian 12 has glibc 2.36: wheels that need no newer one run there."""
PLATFORMS = (
    *(f"manylinux_2_{minor}_{PROCESSOR}" for minor in range(GLIBC, 16, -1)),
    f"manylinux2014_{PROCESSOR}",
)
PYTHON = "3.11"
"""Debian 12's."""


class Wheel(NamedTuple):
    """One library, and its wheel or what to do without."""

    name: str
    version: str
    file: Path | None
    instead: str = ""

    @property
    def line(self) -> str:
        """Its line of the table."""
        return f"| {self.name} {self.version} | {self.file.name if self.file else self.instead} |"


def needed() -> list[tuple[str, str]]:
    """Name and version of all that the program needs on Linux, as they are installed here."""
    environment: dict[str, str | AbstractSet[str]] = {
        **{name: str(value) for name, value in default_environment().items()},
        "extra": "",
        "platform_machine": PROCESSOR,
        "platform_system": "Linux",
        "sys_platform": "linux",
    }
    found: dict[str, str] = {}
    waiting = ["voicecoach"]
    while waiting:
        here = distribution(waiting.pop())
        for text in here.requires or ():
            one = Requirement(text)
            name = one.name.lower().replace("_", "-")
            if name in found or (one.marker and not one.marker.evaluate(environment)):
                continue
            found[name] = _version(name, one)
            waiting.append(name)
    return sorted(found.items())


def _version(name: str, wanted: Requirement) -> str:
    try:
        return distribution(name).version
    except PackageNotFoundError as problem:
        raise SystemExit(
            f"{wanted} isn't installed here: its version can't be told. Run: make ready"
        ) from problem


def fetched(folder: Path) -> Iterator[Wheel]:
    """Each library's wheel, fetched into the folder; those that are there already are taken as they are."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, version in needed():
        said = "" if _there(folder, name, version) else _fetch(folder, name, version)
        file = _there(folder, name, version)
        machine = Machine(PROCESSOR, "Linux", PYTHON, "glibc")
        yield Wheel(name, version, file, "" if file else advice(said, machine) or said)


def _there(folder: Path, name: str, version: str) -> Path | None:
    begins = f"{name.replace('-', '_')}-{version}-".lower()
    return next((each for each in folder.glob("*.whl") if each.name.lower().startswith(begins)), None)


def _fetch(folder: Path, name: str, version: str) -> str:
    """Fetch a wheel; where there is none for any machine, build it, if that gives one for every machine.

    Returns:
        What pip said.
    """
    pip = [sys.executable, "-m", "pip"]
    wanted = ["--quiet", "--no-deps", f"{name}=={version}"]
    for_arm = ["--only-binary=:all:", "--python-version", PYTHON]
    for_arm += [word for each in PLATFORMS for word in ("--platform", each)]
    said = subprocess.run(
        [*pip, "download", "--dest", str(folder), *for_arm, *wanted],
        capture_output=True,
        text=True,
        check=False,
    )
    if said.returncode:
        built = folder / "built"
        subprocess.run([*pip, "wheel", "--wheel-dir", str(built), *wanted], capture_output=True, check=False)
        for file in built.glob("*-none-any.whl"):
            file.replace(folder / file.name)
        shutil.rmtree(built, ignore_errors=True)
    return said.stderr
