"""Puts the program, its model and its guide on a stick, for machines without a network: `make stick`.

`python -m voicecoach.stick FOLDER`, from a checkout. pip fetches the wheels for this machine and for 64-bit
ARM, or they are taken from a folder that is named. What is put there needs no network, and updates as well.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import click

from voicecoach import model_store, places
from voicecoach.errors import Problem, shown, what_to_do, why
from voicecoach.model_store.manifest import load

PIP = (sys.executable, "-m", "pip", "--disable-pip-version-check")
ARM = ("manylinux_2_28_aarch64", "manylinux_2_17_aarch64", "manylinux2014_aarch64", "linux_aarch64")
"""What a 64-bit ARM machine with Debian 12 takes, the newest first."""
SET_UP = """\
#!/bin/sh
# Sets voicecoach up from this stick, or updates it. It needs no network, and no root.
# Journals and the profile lie elsewhere and stay as they are.
set -eu
stick=$(CDPATH= cd -- "$(dirname -- "$0")" && pwd)
target=${1:-"$HOME/voicecoach"}
[ -x "$target/bin/python" ] || python3 -m venv "$target" || {
  echo "The environment could not be made. It needs Python 3.10 or newer with venv (python3-venv)." >&2
  exit 1
}
"$target/bin/python" -m pip install --quiet --disable-pip-version-check --no-index \\
  --find-links "$stick/wheels" --upgrade voicecoach || {
  echo "No wheels for this machine and this Python are on the stick. Wheels lie in $stick/wheels." >&2
  exit 1
}
# Where another speech model was chosen, it stays.
[ -e "${XDG_DATA_HOME:-$HOME/.local/share}/voicecoach/models/another.json" ] ||
  "$target/bin/voicecoach" setup --plain --model "$stick/model"
echo "voicecoach is ready: $target/bin/voicecoach"
echo "Try it: $target/bin/voicecoach check"
"""
READ_ME = """\
voicecoach on a stick
=====================

On the machine without a network, with Python 3.10 or newer:

    sh set-up.sh

puts it into the folder voicecoach of your home; sh set-up.sh FOLDER puts it elsewhere. The same line updates
an older one: journals and the profile stay. Wheels are for {machines}.

The microphone and the headphones need the Debian package libportaudio2, and on ARM the recogniser
needs libatomic1. They are not on the stick: install them while there is a network. Without them typed
notes work.

The guide lies in guide; begin with guide/pocket.md.
"""


def make(folder: Path, wheels: Path | None, pythons: Sequence[str]) -> None:
    """Fill the folder.

    Args:
        folder: Where all of it goes; what an earlier run put there is replaced.
        wheels: A folder of wheels to take in place of fetching any.
        pythons: The versions of Python that ARM machines may have, such as `3.11`.

    Raises:
        Problem: It runs from no checkout, or a part of it can't be had.
    """
    root = places.checkout()
    if root is None:
        raise Problem("A stick is made from a checkout: run make stick there.")
    model = places.models() / load().name
    wrong = model_store.wrong_with(model)
    if wrong:
        raise Problem(f"The speech model isn't whole ({'; '.join(wrong)}). Run: voicecoach setup")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        _wheels(root, folder / "wheels", wheels, pythons)
        _copy(model, folder / "model")
        _copy(places.PACKAGE / "guide", folder / "guide")
        (folder / "set-up.sh").write_text(SET_UP, encoding="utf-8")
        machines = (
            "this kind of machine"
            if wheels
            else f"this kind of machine and 64-bit ARM (Python {', '.join(pythons)})"
        )
        (folder / "READ-ME.txt").write_text(READ_ME.format(machines=machines), encoding="utf-8")
    except OSError as error:
        raise Problem(f"{shown(folder)} can't be written: {why(error)}. {what_to_do(error)}") from None


def _copy(source: Path, target: Path) -> None:
    shutil.rmtree(target, ignore_errors=True)
    shutil.copytree(
        source, target, ignore=shutil.ignore_patterns("__pycache__"), copy_function=shutil.copyfile
    )


def _wheels(root: Path, target: Path, given: Path | None, pythons: Sequence[str]) -> None:
    shutil.rmtree(target, ignore_errors=True)
    target.mkdir()
    build = ("wheel", "--quiet", "--use-pep517", "--no-build-isolation", "--wheel-dir", str(target))
    _pip("build the program's own wheel", *build, "--no-deps", str(root))
    if given is not None:
        for wheel in given.glob("*.whl"):
            shutil.copyfile(wheel, target / wheel.name)
        return
    (program,) = target.glob("voicecoach-*.whl")
    pinned = ("--constraint", str(root / "constraints.txt"), str(program))
    _pip("fetch the wheels for this machine", *build, *pinned)
    fetch = ("download", "--quiet", "--only-binary=:all:", "--dest", str(target), "--find-links", str(target))
    platforms = [word for each in ARM for word in ("--platform", each)]
    for python in pythons:
        _pip(
            f"fetch those for ARM and Python {python}",
            *fetch,
            *platforms,
            "--python-version",
            python,
            *pinned,
        )


def _pip(what: str, *words: str) -> None:
    done = subprocess.run([*PIP, *words], capture_output=True, text=True, check=False)
    if done.returncode:
        reasons = [line for line in done.stderr.splitlines() if "ERROR" in line] or ["it gave no reason"]
        raise Problem(f"pip could not {what}: {reasons[-1].removeprefix('ERROR: ')}")


@click.command()
@click.argument("folder", type=click.Path(file_okay=False, path_type=Path))
@click.option(
    "--wheels", type=click.Path(exists=True, file_okay=False, path_type=Path), help="Take these wheels."
)
@click.option(
    "--python", "pythons", multiple=True, default=("3.11", "3.13"), help="A Python that ARM machines have."
)
def main(folder: Path, wheels: Path | None, pythons: tuple[str, ...]) -> None:
    """Put the program, its model and its guide into FOLDER, for machines without a network."""
    try:
        make(folder, wheels, pythons)
    except Problem as problem:
        raise click.ClickException(str(problem)) from None
    size = sum(file.stat().st_size for file in folder.rglob("*") if file.is_file())
    click.echo(f"{folder} holds voicecoach, its model and its guide: {size / 1e6:.0f} megabytes.")


if __name__ == "__main__":
    main()
