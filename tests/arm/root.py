"""A Debian for 64-bit ARM in a folder, and commands run in it by proot and qemu: no binfmt is needed."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path

from voicecoach.native import Native, install, line_to_run, missing

SUITE = "bookworm"
PACKAGES = ("ca-certificates", "libatomic1", "libportaudio2", "python3")
"""What a board needs besides the base: the README's line for ARM, and Python."""
EMULATOR = os.environ.get("QEMU", "qemu-aarch64-static")
OLDEST = 10
"""qemu 7.2, Debian 12's own, aborts where the program's threads begin to hear; 10.0 of its backports doesn't.
None between them was tried."""
TOOLS = (
    Native("debootstrap", "makes the Debian", lambda: shutil.which("debootstrap") is not None),
    Native("proot", "runs in it", lambda: shutil.which("proot") is not None),
    Native("qemu-user-static", "emulates the processor", lambda: shutil.which(EMULATOR) is not None),
)
READY = "etc/voicecoach-ready"
"""Written last: a root without it was cut off while it was made, and is made anew."""


class Root:
    """The folder. What is run in it sees of this machine only its devices and processes."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder.absolute()

    def make(self) -> None:
        """Make it, unless it is there: some minutes, most of them emulated.

        Raises:
            SystemExit: A tool is missing, too old, or can't be installed, or Debian's packages can't be had.
        """
        absent = missing(TOOLS)
        if absent and not install(absent):
            raise SystemExit(f"The Debian for ARM can't be made. {line_to_run(missing(TOOLS))}")
        version = re.search(r"version (\d+)", _run([EMULATOR, "--version"]))
        if version is None or int(version[1]) < OLDEST:
            raise SystemExit(
                f"{EMULATOR} is older than {OLDEST}, and would abort. On Debian 12 take qemu-user-static "
                "from bookworm-backports, or name a newer one: make arm QEMU=/path/to/qemu-aarch64"
            )
        if (self.folder / READY).exists():
            return
        shutil.rmtree(self.folder, ignore_errors=True)
        order = ["debootstrap", "--foreign", "--arch=arm64", "--variant=minbase"]
        _run([*order, f"--include={','.join(PACKAGES)}", SUITE, str(self.folder)])
        # By its name the shell must start it: proot runs the emulator on a script's own file otherwise.
        self.run("/bin/sh", "/debootstrap/debootstrap", "--second-stage", DEBOOTSTRAP_DIR="/debootstrap")
        (self.folder / READY).touch()

    def run(self, *order: str, at: str = "/", **environment: str) -> str:
        """Run a command in it and give what it printed.

        Args:
            order: The command.
            at: The folder in which it begins.
            environment: All that its environment holds beside path, home and language.
        """
        proot = ["proot", "-0", "-q", EMULATOR, "-r", str(self.folder), "-b", "/dev", "-w", at]
        if (self.folder / READY).exists():
            proot += ["-b", "/proc", "-b", "/sys"]  # while it is made, debootstrap has a link there
        usual = {"PATH": "/usr/sbin:/usr/bin:/sbin:/bin", "HOME": "/root", "LC_ALL": "C.UTF-8"}
        return _run([*proot, *order], usual | {"DEBIAN_FRONTEND": "noninteractive"} | environment)


def _run(order: Sequence[str], environment: dict[str, str] | None = None) -> str:
    # proot is found by this machine's path; what it runs, by the path within the root.
    order = [shutil.which(order[0]) or order[0], *order[1:]]
    done = subprocess.run(order, env=environment, capture_output=True, text=True, check=False)
    if done.returncode:
        said = "\n".join((done.stdout + done.stderr).splitlines()[-15:])
        raise SystemExit(f"This failed: {' '.join(order)}\n{said}")
    return done.stdout
