"""Nothing but the model store ever opens a connection."""

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from voicecoach import places
from voicecoach.model_store.manifest import load

HANGS_S = 1_200.0
"""A program that takes so long hangs, however busy the machine is."""
NO_NETWORK = ["unshare", "--net"] if os.geteuid() == 0 else ["unshare", "--map-root-user", "--net"]
GUARD = '''
import os, socket, sys

def guard(event, arguments):
    """End the program at once when it looks up a host or connects to an internet address."""
    if event in ("socket.connect", "socket.sendto", "socket.sendmsg"):
        connection = arguments[0]
        if connection.family == getattr(socket, "AF_UNIX", None):
            return
    elif event not in ("socket.getaddrinfo", "socket.gethostbyname", "urllib.Request"):
        return
    os.write(2, f"CONNECTION {event} {arguments}\\n".encode())
    os._exit(99)

sys.addaudithook(guard)
'''
"""Python loads a module of the name sitecustomize at its start, in every process that it starts."""


@pytest.fixture
def guarded(tmp_path: Path) -> dict[str, str]:
    """An environment in which every Python process ends at its first connection."""
    (tmp_path / "guard").mkdir()
    (tmp_path / "guard" / "sitecustomize.py").write_text(GUARD)
    return {**os.environ, "PYTHONPATH": str(tmp_path / "guard")}


@pytest.fixture
def settled(installed: Path, model_path: Path, tmp_path: Path) -> Iterator[dict[str, str]]:
    """An environment with the program installed and its model in place, outside of any checkout."""
    environment = {**os.environ, "PYTHONPATH": str(installed), "XDG_DATA_HOME": str(tmp_path / "data")}
    fetched = model_path.parent / load().name
    done = _voicecoach("setup", "--model", str(fetched), environment=environment, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    yield environment
    shutil.rmtree(tmp_path / "data")


def _voicecoach(
    *words: str, environment: dict[str, str], cwd: Path, before: tuple[str, ...] = ()
) -> "subprocess.CompletedProcess[str]":
    order = [*before, sys.executable, "-m", "voicecoach", *words]
    return subprocess.run(
        order, env=environment, cwd=cwd, capture_output=True, text=True, check=False, timeout=HANGS_S
    )


def test_a_machine_without_a_network_can_be_had() -> None:
    script = "import socket; socket.create_connection(('192.0.2.1', 80), 1)"
    tried = subprocess.run(
        [*NO_NETWORK, sys.executable, "-c", script], capture_output=True, text=True, check=False
    )
    assert "Network is unreachable" in tried.stderr, tried.stderr


def test_the_installed_program_does_the_whole_job_without_a_network(
    settled: dict[str, str], tmp_path: Path
) -> None:
    done = _voicecoach("demo", environment=settled, cwd=tmp_path, before=tuple(NO_NETWORK))
    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout.startswith("Cautions: ")
    assert "Heard:" in done.stdout
    assert "Noted." in done.stdout
    assert list((tmp_path / "out").glob("*.wav"))
    page = tmp_path / "out" / "first_end.html"
    assert f"The coach's page is in {page.relative_to(tmp_path)}: open it in a browser." in done.stdout
    assert "The demo: the game" in page.read_text(encoding="utf-8")


def test_without_network_and_model_set_up_lists_every_way_and_typed_notes_work(
    installed: Path, tmp_path: Path
) -> None:
    environment = {**os.environ, "PYTHONPATH": str(installed), "XDG_DATA_HOME": str(tmp_path)}
    environment["VOICECOACH_MODEL"] = ""
    environment["MAVEN_OPTS"] = f"-Dmaven.repo.local={tmp_path / 'maven'}"  # nothing is in it yet
    off = tuple(NO_NETWORK)
    failed = _voicecoach("setup", environment=environment, cwd=tmp_path, before=off)
    assert failed.returncode == 4
    for way in ("--model", "VOICECOACH_MODEL", "https://alphacephei.com/vosk/models/", "mvn dependency:copy"):
        assert way in failed.stderr
    assert "Traceback" not in failed.stderr
    assert not list((tmp_path / "voicecoach" / "models").glob("*/"))

    note = "our second, eighty centimetres, two o'clock"
    told = _voicecoach("tell", "--json", note, environment=environment, cwd=tmp_path, before=off)
    assert told.returncode == 0, told.stderr
    assert json.loads(told.stdout)["note"]["gap_m"] == 0.8

    recording = next(places.scenarios().glob("*/*.wav"))
    heard = _voicecoach("hear", str(recording), environment=environment, cwd=tmp_path, before=off)
    assert heard.returncode == 4
    assert "voicecoach setup" in heard.stderr


@pytest.mark.parametrize(
    "script",
    [
        "import socket; socket.create_connection(('127.0.0.1', 9))",
        "import socket; socket.socket(socket.AF_INET6, socket.SOCK_STREAM).connect(('::1', 9))",
        "import socket; socket.socket(socket.AF_INET, socket.SOCK_DGRAM).sendto(b'', ('127.0.0.1', 9))",
        "import socket; socket.getaddrinfo('example.com', 80)",
        "import urllib.request; urllib.request.urlopen('http://127.0.0.1:9')",
        "import subprocess, sys; sys.exit(subprocess.call([sys.executable, '-c',"
        " 'import socket; socket.create_connection((\"127.0.0.1\", 9))']))",
    ],
)
def test_the_guard_sees_every_kind_of_connection(guarded: dict[str, str], script: str) -> None:
    tried = subprocess.run([sys.executable, "-c", script], env=guarded, capture_output=True, check=False)
    assert tried.returncode == 99
    assert b"CONNECTION" in tried.stderr


@pytest.mark.usefixtures("model_path")
def test_hearing_telling_and_reading_back_open_no_connection(guarded: dict[str, str], tmp_path: Path) -> None:
    journal = str(tmp_path / "end.jsonl")
    recordings = [str(path) for path in sorted(places.scenarios().glob("first_end/*.wav"))[:2]]
    for words in (
        ("tell", "--journal", journal, "our second, eighty centimetres, two o'clock", "who holds"),
        ("hear", "--journal", journal, *recordings),
        ("replay", journal, "--wav", str(tmp_path / "end.wav")),
    ):
        done = _voicecoach(*words, environment=guarded, cwd=tmp_path)
        assert "CONNECTION" not in done.stderr
        assert done.returncode == 0, done.stderr
    assert (tmp_path / "end.wav").stat().st_size > 10_000


def test_setting_up_is_what_the_guard_stops(guarded: dict[str, str], installed: Path, tmp_path: Path) -> None:
    guarded["PYTHONPATH"] += f"{os.pathsep}{installed}"
    stopped = _voicecoach("setup", environment={**guarded, "XDG_DATA_HOME": str(tmp_path)}, cwd=tmp_path)
    assert stopped.returncode == 99
    assert "alphacephei.com" in stopped.stderr
