"""The demo on 64-bit ARM, emulated: python -m tests.arm. Prints a table of wheels and one of what was heard.

Everything is kept in out/arm, so that a second run only hears the demo.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path

import click

from tests.arm.root import Root
from tests.arm.wheels import PLATFORMS, PYTHON, Wheel, fetched
from voicecoach import places

CHECKOUT = places.PACKAGE.parent
OUT = CHECKOUT / "out" / "arm"
SITE, PROGRAM = "opt/site", "opt/voicecoach"
"""Where the libraries and the program are in the root."""
MADE = "root/demo"
"""Where the demo puts what it makes; under proot it would not take one of an earlier run for readable."""
DEMO = ("-m", "voicecoach", "demo", "--folder")


def wheels() -> list[Wheel]:
    """Fetch them, with a line for each; ends the program where one is missing."""
    found = []
    for wheel in fetched(OUT / "wheels"):
        print(
            f"| {wheel.name} {wheel.version} | {wheel.file.name if wheel.file else wheel.instead} |",
            flush=True,
        )
        found.append(wheel)
    lacking = [wheel.name for wheel in found if wheel.file is None]
    print(f"{len(found) - len(lacking)} of {len(found)} libraries have a wheel for ARM.", flush=True)
    if lacking:
        raise SystemExit(f"Without a wheel: {', '.join(lacking)}. What to do stands beside each.")
    return found


def unpack(found: Sequence[Wheel], into: Path) -> None:
    """Unpack the wheels where the root's Python finds them: pip of this machine does it, for ARM."""
    shutil.rmtree(into, ignore_errors=True)
    order = [sys.executable, "-m", "pip", "install", "--quiet", "--no-deps", "--no-index", "--no-compile"]
    order += ["--only-binary=:all:", "--python-version", PYTHON, "--target", str(into)]
    order += [word for each in PLATFORMS for word in ("--platform", each)]
    subprocess.run([*order, *(str(wheel.file) for wheel in found)], check=True)


def put_program(root: Path) -> None:
    """Copy this checkout's program, recordings and speech model into the root."""
    program = root / PROGRAM
    for before in (program, root / MADE):
        shutil.rmtree(before, ignore_errors=True)
    program.mkdir()
    for folder in ("voicecoach", "scenarios", "models"):
        shutil.copytree(CHECKOUT / folder, program / folder, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(CHECKOUT / "pyproject.toml", program)


def timed(demo: Callable[[], str]) -> tuple[list[str], float]:
    """What the demo printed about the game, and how long it took, seconds."""
    began = time.monotonic()
    printed = demo()
    return lines_of(printed), time.monotonic() - began


def lines_of(printed: str) -> list[str]:
    """What the demo printed about the game: what was heard, what came of it, the head; no places of files."""
    kept = (line.strip() for line in printed.splitlines())
    return [line for line in kept if line and "/" not in line and not line.startswith("The voice")]


def compare(here: Sequence[str], there: Sequence[str]) -> list[str]:
    """The lines that differ, each as it is on either machine; empty where all are alike."""
    if len(here) != len(there):
        return [f"{len(here)} lines here, {len(there)} on ARM"]
    return [f"here: {one} / on ARM: {other}" for one, other in zip(here, there, strict=True) if one != other]


@click.command()
@click.option("--only-wheels", is_flag=True, help="Only ask for the wheels.")
def main(*, only_wheels: bool) -> None:
    """Fetch the wheels, make the root, hear the demo there and here, and compare."""
    found = wheels()
    if only_wheels:
        return
    root = Root(OUT / "root")
    root.make()
    unpack(found, root.folder / SITE)
    print(f"| the root | {root.run('/bin/uname', '-m').strip()} |", flush=True)
    put_program(root.folder)
    here, here_s = timed(
        lambda: (
            subprocess.run(
                [sys.executable, *DEMO, str(OUT / "here")],
                cwd=CHECKOUT,
                capture_output=True,
                text=True,
                check=True,
            ).stdout
        )
    )
    there, there_s = timed(
        lambda: root.run(
            "/usr/bin/python3", *DEMO, f"/{MADE}", at=f"/{PROGRAM}", PYTHONPATH=f"/{SITE}:/{PROGRAM}"
        )
    )
    for name, lines in (("here", here), ("arm", there)):
        (OUT / f"{name}.txt").write_text("\n".join(lines) + "\n", encoding="utf-8")
    differing = compare(here, there)
    print(f"| the demo | {here_s:.0f} s here, {there_s:.0f} s emulated |")
    print(f"| lines heard, noted and read back | {len(there)}, {len(differing)} of them not as here |")
    print("\n".join(differing))
    sys.exit(1 if differing else 0)


if __name__ == "__main__":
    main()
