"""A stick: made here, set up from where no network is, and an older installation updated from it.

The wheels are made anew from what the set-up has installed; `make stick` lets pip fetch them: no test does.
"""

import base64
import hashlib
import os
import re
import shutil
import subprocess
import sys
import zipfile
from collections.abc import Mapping
from contextlib import suppress
from importlib.metadata import Distribution, PackageNotFoundError, distribution
from pathlib import Path

import pytest

from tests.setup.test_network import NO_NETWORK
from voicecoach import places, stick
from voicecoach.errors import Problem

NOT_IN_WHEELS = ("RECORD", "INSTALLER", "REQUESTED")
HANGS_S = 1_800.0
NOTE = "our first, eighty centimetres, two o'clock"


def _needed(name: str, found: dict[str, Distribution]) -> dict[str, Distribution]:
    """A distribution and all that it needs on this machine."""
    here = distribution(name)
    if here.name in found:
        return found
    found[here.name] = here
    for line in here.requires or []:
        name, _, marker = line.partition(";")
        if "extra" not in marker:
            with suppress(PackageNotFoundError):  # for another system; pip misses what is really lacking
                _needed(re.split(r"[^A-Za-z0-9._-]", name.strip())[0], found)
    return found


def _wheel(installed: Distribution, folder: Path) -> None:
    """The wheel of an installed distribution (Binary distribution format, packaging.python.org; memory)."""
    tags = [
        line[5:] for line in (installed.read_text("WHEEL") or "").splitlines() if line.startswith("Tag: ")
    ]
    parts = [sorted({tag.split("-")[at] for tag in tags}) for at in range(3)]
    tag = "-".join(".".join(part) for part in parts)
    name = installed.name.replace("-", "_").replace(".", "_")
    record = []
    with zipfile.ZipFile(folder / f"{name}-{installed.version}-{tag}.whl", "w") as archive:
        for file in installed.files or []:
            if (
                ".." in file.parts
                or file.suffix == ".pyc"
                or file.name in ("RECORD", "INSTALLER", "REQUESTED")
            ):
                continue
            data = Path(str(file.locate())).read_bytes()
            archive.writestr(str(file), data)
            digest = base64.urlsafe_b64encode(hashlib.sha256(data).digest()).rstrip(b"=").decode()
            record.append(f"{file},sha256={digest},{len(data)}")
        (info,) = {file.parts[0] for file in installed.files or [] if file.name == "METADATA"}
        archive.writestr(f"{info}/RECORD", "\n".join([*record, f"{info}/RECORD,,", ""]))


@pytest.fixture(scope="module")
def wheels(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheels")
    for each in _needed("voicecoach", {}).values():
        if each.name != "voicecoach":
            _wheel(each, folder)
    return folder


@pytest.fixture(scope="module")
def made(wheels: Path, model_path: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("stick") / "stick"
    stick.make(folder, wheels, ())
    return folder


@pytest.fixture
def home(tmp_path: Path) -> dict[str, str]:
    """A user without anything, and without a network."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("PIP_", "VOICECOACH_"))}
    kept.pop("PYTHONPATH", None)
    return {**kept, "HOME": str(tmp_path), "PATH": f"{Path(sys.executable).parent}:{kept['PATH']}"}


def _run(*words: str, home: Mapping[str, str]) -> "subprocess.CompletedProcess[str]":
    done = subprocess.run(
        [*NO_NETWORK, *words],
        env=dict(home),
        cwd=home["HOME"],
        capture_output=True,
        text=True,
        check=False,
        timeout=HANGS_S,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done


def _older(wheels: Path, folder: Path) -> Path:
    """A stick of an older version."""
    root = places.checkout()
    assert root is not None
    copy = folder / "older"
    ignore = shutil.ignore_patterns(".*", "vosk-*-0.15", "__pycache__", "build", "dist", "out", "tests")
    shutil.copytree(root, copy, ignore=ignore)
    project = copy / "pyproject.toml"
    text = project.read_text()
    version = next(line for line in text.splitlines() if line.startswith("version = "))
    project.write_text(text.replace(version, 'version = "0.0.9"'))
    (folder / "wheels").mkdir()
    stick._pip(
        "build an older wheel",
        *("wheel", "--no-deps", "--no-build-isolation", "--wheel-dir", str(folder / "wheels"), str(copy)),
    )
    for wheel in wheels.glob("*.whl"):
        shutil.copyfile(wheel, folder / "wheels" / wheel.name)
    return folder / "wheels"


def test_a_stick_sets_the_program_up_where_no_network_is(made: Path, home: dict[str, str]) -> None:
    assert (made / "guide" / "setting-up.md").is_file()
    assert "sh set-up.sh" in (made / "READ-ME.txt").read_text()
    done = _run("sh", str(made / "set-up.sh"), home=home)
    assert "voicecoach is ready" in done.stdout
    program = f"{home['HOME']}/voicecoach/bin/voicecoach"
    heard = _run(program, "hear", str(places.scenarios() / "first_end" / "03-theirs.wav"), home=home)
    assert "Noted. Their first: eighty centimetres, two o'clock." in heard.stdout


def test_an_older_installation_is_updated_and_its_journals_and_profile_stay(
    made: Path, wheels: Path, home: dict[str, str], tmp_path: Path
) -> None:
    target = tmp_path / "voicecoach"
    older = _older(wheels, tmp_path / "before")
    _run("python3", "-m", "venv", str(target), home=home)
    pip = (str(target / "bin" / "python"), "-m", "pip", "install", "--quiet", "--no-index")
    _run(*pip, "--find-links", str(older), "voicecoach", home=home)
    program = str(target / "bin" / "voicecoach")
    assert _run(program, "--version", home=home).stdout == "voicecoach 0.0.9\n"
    _run(program, "profile", "set", "pace", "0.7", home=home)
    journal = tmp_path / "game.jsonl"
    _run(program, "tell", NOTE, "--journal", str(journal), home=home)
    before = journal.read_bytes()
    kept = _run(program, "profile", home=home).stdout

    models = tmp_path / ".local" / "share" / "voicecoach" / "models"
    assert not models.exists()
    models.mkdir(parents=True)
    (models / "another.json").write_text("of another speech model")

    _run("sh", str(made / "set-up.sh"), str(target), home=home)
    assert [each.name for each in models.iterdir()] == ["another.json"], "the model that was chosen stays"
    (models / "another.json").unlink()
    assert _run(program, "--version", home=home).stdout != "voicecoach 0.0.9\n"
    assert _run(program, "profile", home=home).stdout == kept
    assert "Pace, metres: 0.7." in kept
    assert journal.read_bytes() == before
    assert '"ours"' in _run(program, "replay", str(journal), "--json", home=home).stdout


def test_a_stick_without_wheels_for_the_machine_says_so(
    made: Path, home: dict[str, str], tmp_path: Path
) -> None:
    empty = tmp_path / "empty"
    shutil.copytree(made, empty, ignore=shutil.ignore_patterns("*.whl"))
    (empty / "wheels").mkdir(exist_ok=True)
    done = subprocess.run(
        [*NO_NETWORK, "sh", str(empty / "set-up.sh")],
        env=home,
        capture_output=True,
        text=True,
        check=False,
        timeout=HANGS_S,
    )
    assert done.returncode == 1
    assert "No wheels for this machine and this Python are on the stick" in done.stderr


def test_a_stick_is_made_from_a_checkout_alone(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(places, "checkout", lambda: None)
    with pytest.raises(Problem, match="made from a checkout"):
        stick.make(tmp_path / "stick", None, ())


def test_what_pip_cannot_do_is_told_in_words() -> None:
    with pytest.raises(Problem, match="pip could not fetch what there isn't"):
        stick._pip("fetch what there isn't", "download", "--no-index", "no-such-package-anywhere")
