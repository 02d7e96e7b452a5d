"""What is installed, and what its installing stands on."""

import os
import re
import resource
import subprocess
import sys
from pathlib import Path

import pytest

from voicecoach import places

if sys.version_info >= (3, 11):
    import tomllib
else:
    import tomli as tomllib

ROOT = places.checkout() or Path()


def _project() -> dict[str, list[str]]:
    project: dict[str, list[str]] = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    return project


def _name(requirement: str) -> str:
    found = re.match(r"[A-Za-z0-9._-]+", requirement)
    assert found
    return re.sub(r"[-_.]+", "-", found.group()).lower()


def _voicecoach(site: Path, *words: str) -> "subprocess.CompletedProcess[str]":
    environment = {**os.environ, "PYTHONPATH": str(site)}
    order = [sys.executable, "-m", "voicecoach", *words]
    return subprocess.run(order, env=environment, cwd=site, capture_output=True, text=True, check=False)


def test_a_wheel_carries_all_data_that_a_checkout_has_beside_the_package(installed: Path) -> None:
    package = installed / "voicecoach"
    assert (package / "models" / "manifest.json").read_bytes() == (
        ROOT / "models" / "manifest.json"
    ).read_bytes()
    suffixes = {".wav", ".yaml", ".json"}
    scenarios = [path for path in (ROOT / "scenarios").rglob("*") if path.suffix in suffixes]
    assert scenarios
    for path in scenarios:
        assert (package / path.relative_to(ROOT)).read_bytes() == path.read_bytes()
    data = [path for path in (ROOT / "voicecoach").rglob("*") if path.is_file() and path.suffix != ".pyc"]
    for path in data:
        if "bench" not in path.parts:
            assert (installed / path.relative_to(ROOT)).is_file(), f"the wheel lacks {path}"


def test_the_model_itself_is_not_in_the_wheel(installed: Path) -> None:
    assert not list(installed.rglob("final.mdl"))


def test_the_installed_program_tells_its_version(installed: Path) -> None:
    shown = _voicecoach(installed, "--version")
    assert shown.stdout == "voicecoach 0.1.0\n"
    assert shown.returncode == 0


def test_help_is_plain_and_takes_under_a_tenth_of_a_second_of_processor_time(installed: Path) -> None:
    took = []
    for _ in range(7):
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        shown = _voicecoach(installed, "--help")
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        took.append(after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
    assert shown.returncode == 0
    assert shown.stdout.isascii()
    for command in ("listen", "hear", "tell", "replay", "check", "setup", "demo"):
        assert re.search(rf"^  {command} ", shown.stdout, re.MULTILINE)
    assert min(took) < 0.1


@pytest.mark.parametrize("command", ["listen", "hear", "tell", "replay", "check", "setup", "demo"])
def test_every_command_has_help(installed: Path, command: str) -> None:
    shown = _voicecoach(installed, command, "--help")
    assert shown.returncode == 0, shown.stderr
    assert shown.stdout.isascii()
    assert shown.stdout.startswith("Usage: ")


def test_every_dependency_is_pinned_for_ci() -> None:
    lines = (ROOT / "constraints.txt").read_text().splitlines()
    pinned = {_name(line) for line in lines if "==" in line}
    wanted = [*_project()["dependencies"]]
    extras = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]["optional-dependencies"]
    wanted += extras["dev"]
    assert {_name(requirement) for requirement in wanted} <= pinned


def test_every_dependency_has_its_reason_in_the_developers_page() -> None:
    page = (ROOT / "DEVELOPERS.md").read_text()
    for requirement in _project()["dependencies"]:
        name = re.split(r"[><=;]", requirement)[0].strip()
        assert f"| {name} |" in page, f"DEVELOPERS.md gives no reason for {name}"


def test_ci_runs_the_test_command_of_the_readme() -> None:
    assert "\n    make test\n" in (ROOT / "README.md").read_text()
    assert (ROOT / ".ci" / "run").read_text().splitlines()[-1] == "exec make test"
    assert os.access(ROOT / ".ci" / "run", os.X_OK)


def test_what_is_set_up_is_ignored_by_git() -> None:
    made = (
        ".venv/program",
        "models/vosk-model-small-en-us-0.15/am/final.mdl",
        "models/setup.lock",
        "out/x.wav",
    )
    made += ("models/partial-1/model.zip", "voicecoach.egg-info/PKG-INFO", "voicecoach/__pycache__/x.pyc")
    asked = subprocess.run(
        ["git", "check-ignore", "--no-index", *made], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert asked.stdout.split() == list(made), asked.stderr
