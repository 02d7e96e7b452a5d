"""What to do where pip could not install a library: `python -m voicecoach.wheels FILE`, with what pip said.

It needs nothing but Python, since it runs where nothing else could be installed.
"""

import platform
import re
import sys
from pathlib import Path
from typing import NamedTuple

OFFLINE = (
    "NewConnectionError",
    "Temporary failure in name resolution",
    "Network is unreachable",
    "ConnectTimeout",
)
"""What pip says besides where it reaches nothing; it then also claims that there is no such package."""


class Machine(NamedTuple):
    """What a wheel must have been built for."""

    processor: str
    """As `platform.machine()` names it: `aarch64`, `armv7l`, `x86_64`."""
    system: str
    python: str
    """Its version, such as 3.11."""
    libc: str
    """`glibc` on most of Linux; empty where nobody can say, as on systems with musl."""


def advice(said: str, machine: Machine) -> str:
    """What to do, in plain lines; nothing where what pip said is about something else."""
    if any(sign in said for sign in OFFLINE):
        return "No package could be fetched: there is no network. Connect to one, then run the same again."
    lacking = re.findall(r"No matching distribution found for ([\w.-]+)", said)
    unbuilt = re.findall(r"Failed building wheel for ([\w.-]+)", said)
    names = ", ".join(dict.fromkeys([*lacking, *unbuilt]))
    if not names:
        return ""
    what = f"No built package for this machine: {names}."
    here = f"This is {machine.system} on {machine.processor} with Python {machine.python}."
    return f"{what}\n{here} {_remedy(machine, built=bool(unbuilt and not lacking))}"


def _remedy(machine: Machine, *, built: bool) -> str:
    if machine.processor.startswith("arm") and machine.processor != "arm64":
        return (
            "There are built packages for 64-bit ARM: put a 64-bit system on this board, on which uname -m "
            "says aarch64, and set up again."
        )
    if machine.system == "Linux" and machine.libc != "glibc":
        return "They are built for systems with glibc, such as Debian: use one of those, and set up again."
    if built:
        return (
            "To build it here, run this as root: apt-get install build-essential python3-dev cmake. "
            "Then set up again; that may take an hour on a small board."
        )
    return (
        "Use a Python that it is built for, 3.10 to 3.14, on 64-bit Linux, Windows or macOS, and set up "
        "again: make PYTHON=/path/to/python3 demo"
    )


def here() -> Machine:
    """This machine."""
    return Machine(
        platform.machine(),
        platform.system(),
        ".".join(platform.python_version_tuple()[:2]),
        platform.libc_ver()[0],
    )


def main(log: Path) -> None:
    """Print what to do about what pip said."""
    text = advice(log.read_text(encoding="utf-8", errors="replace"), here())
    if text:
        print(text, file=sys.stderr, flush=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
