"""Fills a folder with links to the programs that a machine has once the set-up has run, and prints it.

Those are the programs of Debian's base system, of the packages in `voicecoach/native.py` and whatever
they depend on, and the tools that the README names. On a system without dpkg nothing can be told
apart, and the PATH is printed as it is.
"""

import os
import runpy
import shutil
import subprocess
import sys
from pathlib import Path

NATIVE = Path(__file__).parents[1] / "voicecoach" / "native.py"
TOOLS = ("git", "make", "mvn", "java")
"""What the README asks for beside Python, and Maven, which the set-up uses where there is one."""
FOLDERS = ("/usr/local/sbin", "/usr/local/bin", "/usr/sbin", "/usr/bin", "/sbin", "/bin")
BASE = ("required", "important")
NOT_NEEDED = ("recommends", "suggests", "conflicts", "breaks", "replaces", "enhances")


def packages() -> set[str]:
    """Debian's base, our own list, and what that depends on."""
    shown = _lines("dpkg-query", "--show", "--showformat=${Package} ${Priority} ${Essential}\\n")
    rows = [line.split() for line in shown]
    base = {row[0] for row in rows if row[1] in BASE or row[-1] == "yes"}
    only = [f"--no-{each}" for each in NOT_NEEDED]
    ours = [native.package for native in runpy.run_path(str(NATIVE))["WANTED"]["tests"]]
    ours += ["git", "make", "python3-venv"]
    listed = _lines("apt-cache", "depends", "--recurse", "--installed", *only, *base, *ours)
    return {line for line in listed if line[0].isalnum()}


def programs(wanted: set[str]) -> dict[str, str]:
    """The programs of these packages by their names, links such as `awk` among them; then the tools."""
    files = {_plain(line) for line in _lines("dpkg-query", "--listfiles", *sorted(wanted))}
    found = {}
    for path in (path for folder in FOLDERS if Path(folder).is_dir() for path in Path(folder).iterdir()):
        if _plain(str(path)) in files or _plain(str(path.resolve())) in files:
            found[path.name] = str(path)
    tools = {tool: shutil.which(tool) for tool in TOOLS}
    tools["python3"] = str(Path(sys.executable).resolve())
    return found | {tool: path for tool, path in tools.items() if path}


def _plain(path: str) -> str:
    """A file's name, whether or not /bin is a link to /usr/bin."""
    return path.removeprefix("/usr")


def _lines(*order: str) -> list[str]:
    """What a program prints; it says so too where some of the packages aren't there."""
    done = subprocess.run(order, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True, check=False)
    return [line for line in done.stdout.splitlines() if line]


def main(folder: Path) -> str:
    """Fill the folder anew; the PATH to use."""
    if not (shutil.which("dpkg-query") and shutil.which("apt-cache")):
        return os.environ["PATH"]
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    for name, path in programs(packages()).items():
        (folder / name).symlink_to(path)
    return str(folder.resolve())


if __name__ == "__main__":
    print(main(Path(sys.argv[1])))
