"""What is installed, and what its installing stands on."""

import ast
import os
import re
import subprocess
import sys
import sysconfig
from importlib import metadata
from pathlib import Path

import pytest

from voicecoach import places

ROOT = places.checkout() or Path()


def _requirements(site: Path, extra: str | None = None) -> list[str]:
    """What the wheel says it needs; with an extra, what that needs besides."""
    text = next(site.glob("voicecoach-*.dist-info/METADATA")).read_text()
    lines = re.findall(r"^Requires-Dist: (.*)$", text, re.MULTILINE)
    plain = [line.replace("'", '"') for line in lines]  # either quote is allowed
    return [line for line in plain if (f'extra == "{extra}"' in line if extra else "extra ==" not in line)]


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
        assert (installed / path.relative_to(ROOT)).is_file(), f"the wheel lacks {path}"


def test_a_wheel_carries_the_program_and_neither_its_tests_nor_its_benches(installed: Path) -> None:
    assert {path.name for path in installed.iterdir() if path.suffix != ".dist-info"} == {"bin", "voicecoach"}
    for path in (installed / "voicecoach").rglob("*.py"):
        assert "tests" not in _imported(path), f"{path} imports a test"
        assert not {"bench", "speed"} & set(path.parts), path


def test_the_model_itself_is_not_in_the_wheel(installed: Path) -> None:
    assert not list(installed.rglob("final.mdl"))


def test_the_installed_program_tells_its_version(installed: Path) -> None:
    shown = _voicecoach(installed, "--version")
    assert shown.stdout == "voicecoach 0.1.0\n"
    assert shown.returncode == 0


HEAVY = {
    "hassil",
    "jinja2",
    "numpy",
    "onnxruntime",
    "pydantic",
    "pyttsx3",
    "sounddevice",
    "soundfile",
    "vosk",
    "yaml",
}
"""Loaded when they are used. What the help then costs is measured by `make bench-speed`."""
HELP = """
import runpy, sys
sys.argv = ["voicecoach", "--help"]
try:
    runpy.run_module("voicecoach", run_name="__main__")
finally:
    print(*{name.split(".")[0] for name in sys.modules}, file=sys.stderr)
"""


def test_help_is_plain_and_loads_nothing_heavy(installed: Path) -> None:
    # -S: the finder that an editable install adds to every start of Python is none of a wheel's.
    environment = {"PYTHONPATH": f"{installed}{os.pathsep}{sysconfig.get_path('purelib')}"}
    order = [sys.executable, "-S", "-c", HELP]
    shown = subprocess.run(order, env=environment, capture_output=True, text=True, check=False)
    assert shown.returncode == 0
    assert shown.stdout.isascii()
    for command in ("listen", "hear", "tell", "replay", "check", "setup", "demo"):
        assert re.search(rf"^  {command} ", shown.stdout, re.MULTILINE)
    loaded = set(shown.stderr.split())
    assert "click" in loaded
    assert not loaded & HEAVY


@pytest.mark.parametrize("command", ["listen", "hear", "tell", "replay", "check", "setup", "demo"])
def test_every_command_has_help(installed: Path, command: str) -> None:
    shown = _voicecoach(installed, command, "--help")
    assert shown.returncode == 0, shown.stderr
    assert shown.stdout.isascii()
    assert shown.stdout.startswith("Usage: ")


def test_every_dependency_is_pinned_for_ci(installed: Path) -> None:
    lines = (ROOT / "constraints.txt").read_text().splitlines()
    pinned = {_name(line) for line in lines if "==" in line}
    wanted = {_name(each) for each in _requirements(installed) + _requirements(installed, "dev")}
    assert len(wanted) > 15
    assert wanted <= pinned


@pytest.mark.parametrize("folder", ["voicecoach", "tests"])
def test_every_package_that_is_imported_is_a_dependency(installed: Path, folder: str) -> None:
    wanted = {_name(each) for each in _requirements(installed)}
    if folder == "tests":
        wanted |= {_name(each) for extra in ("dev", "lesson") for each in _requirements(installed, extra)}
    homes = metadata.packages_distributions()
    for path in (ROOT / folder).rglob("*.py"):
        for module in _imported(path) - sys.stdlib_module_names - {"voicecoach", "tests"}:
            assert {_name(home) for home in homes.get(module, [module])} & wanted, f"{path} imports {module}"


def _imported(path: Path) -> set[str]:
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            names.add(node.module)
    return {name.split(".")[0] for name in names}


def test_every_dependency_has_its_reason_in_the_developers_page(installed: Path) -> None:
    page = (ROOT / "DEVELOPERS.md").read_text().lower()
    for name in {_name(each) for each in _requirements(installed)}:
        assert f"| {name} |" in page, f"DEVELOPERS.md gives no reason for {name}"


def test_ci_runs_the_test_command_of_the_readme() -> None:
    assert "\n    make test\n" in (ROOT / "README.md").read_text()
    assert (ROOT / ".ci" / "run").read_text().splitlines()[-1] == "exec make test"
    assert os.access(ROOT / ".ci" / "run", os.X_OK)


def test_what_is_set_up_is_ignored_by_git() -> None:
    made = [
        ".venv/program",
        "models/vosk-model-small-en-us-0.15/am/final.mdl",
        "models/partial-1/model.zip",
        "models/setup.lock",
        "out/x.wav",
        "voicecoach.egg-info/PKG-INFO",
        "voicecoach/__pycache__/x.pyc",
    ]
    order = ["git", "check-ignore", "--no-index", *made]
    asked = subprocess.run(order, cwd=ROOT, capture_output=True, text=True, check=False)
    assert asked.stdout.split() == made, asked.stderr
