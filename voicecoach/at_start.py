"""Starting by itself at login or power-up: the unit for the user's own systemd, written and taken away."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import platformdirs

from voicecoach.errors import Problem, shown, what_to_do, why

NAME = "voicecoach.service"
WANTED_BY = "default.target"
VERIFY_S = 20.0
ARGUMENTS = ("-m", "voicecoach", "listen", "--unattended", "--short-cautions")
UNIT = """\
# Written by voicecoach setup --at-start. It is removed by voicecoach setup --not-at-start.
[Unit]
Description=voicecoach listens without a terminal
After=pipewire.service pipewire-pulse.service wireplumber.service pulseaudio.service
StartLimitIntervalSec=0

[Service]
ExecStart={command}
Restart=on-failure
RestartSec=1
# Wrong usage, no speech model and a damaged journal stay as they are however often it is started.
RestartPreventExitStatus=2 4 5

[Install]
WantedBy=default.target
"""


def unit(python: str = sys.executable) -> str:
    """The unit's text; `python` is the interpreter that has the program."""
    return UNIT.format(command=" ".join(_quoted(each) for each in (python, *ARGUMENTS)))


def place() -> Path:
    """Where the unit goes: the user's own folder of units (systemd.unit(5), "User Unit Search Path")."""
    return platformdirs.user_config_path("systemd", appauthor=False) / "user" / NAME


def refuse_where_it_cannot_be() -> None:
    """Raise a Problem for root, and on a system whose programs are started in another way."""
    if not sys.platform.startswith("linux"):
        raise Problem(
            "This system doesn't start programs through systemd. Add voicecoach listen --unattended to what "
            "it starts at login."
        )
    if os.geteuid() == 0:
        raise Problem(
            "Root has no earpiece: this is for the user who carries the device. Run it as that user, without "
            "sudo. Nothing was changed."
        )


def faults(text: str, folder: Path) -> str:
    """What systemd itself finds wrong with a unit; nothing where systemd isn't there to be asked.

    Args:
        text: The unit.
        folder: An empty folder to lay it into.
    """
    asked = shutil.which("systemd-analyze")
    if asked is None:
        return ""
    file = folder / NAME
    file.write_text(text, encoding="utf-8")
    order = [asked, "verify", "--man=no", str(file)]
    try:
        told = subprocess.run(order, capture_output=True, text=True, timeout=VERIFY_S, check=False)
    except (OSError, subprocess.TimeoutExpired) as error:
        return str(error)
    return "" if told.returncode == 0 and not told.stderr.strip() else told.stderr.strip()


def write(text: str, file: Path) -> None:
    """Write the unit and enable it, as `systemctl --user enable` would.

    Raises:
        Problem: It can't be written.
    """
    link = _link(file)
    try:
        link.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")
        link.unlink(missing_ok=True)
        link.symlink_to(file)
    except OSError as error:
        raise Problem(f"{shown(file)} can't be written: {why(error)}. {what_to_do(error)}") from None
    _read_again()


def remove(file: Path) -> bool:
    """Take the unit away; False where there was none.

    Raises:
        Problem: It can't be removed.
    """
    there = file.exists()
    try:
        _link(file).unlink(missing_ok=True)
        file.unlink(missing_ok=True)
    except OSError as error:
        raise Problem(f"{shown(file)} can't be removed: {why(error)}. {what_to_do(error)}") from None
    _read_again()
    return there


def _link(file: Path) -> Path:
    return file.parent / f"{WANTED_BY}.wants" / file.name


def _read_again() -> None:
    """Let the user's systemd, where it runs, read its units again; it does so at login as well."""
    if shutil.which("systemctl") and Path("/run/systemd/system").is_dir():
        order = ["systemctl", "--user", "daemon-reload"]
        subprocess.run(order, capture_output=True, timeout=VERIFY_S, check=False)


def _quoted(word: str) -> str:
    """A word of a command as systemd reads it (systemd.service(5), "Command lines").

    It puts no variable's value into the program's name, and refuses one with a quotation mark.
    """
    escaped = word.replace("\\", "\\\\").replace('"', '\\"').replace("%", "%%")
    return f'"{escaped}"' if any(sign in word for sign in " \t'\"\\;") else escaped
