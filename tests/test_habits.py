"""The linters, as `make check` runs them, and the sizes of files and functions."""

import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest

from voicecoach import places

ROOT = places.checkout() or Path()
SOURCES = sorted(path for folder in ("voicecoach", "tests/bench") for path in (ROOT / folder).rglob("*.py"))


@pytest.mark.parametrize("order", [("ruff", "format", "--check"), ("ruff", "check"), ("mypy",)], ids=" ".join)
def test_the_linters_have_nothing_to_say(order: tuple[str, ...]) -> None:
    done = subprocess.run(
        [sys.executable, "-m", *order], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_no_file_is_longer_than_a_person_reads_at_once() -> None:
    for path in SOURCES:
        assert len(path.read_text(encoding="utf-8").splitlines()) < 300, path


def test_functions_are_short() -> None:
    lengths = []
    for path in SOURCES:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.FunctionDef):
                assert node.end_lineno is not None
                lengths.append((node.end_lineno - node.lineno + 1, f"{path}: {node.name}"))
    lengths.sort()
    assert lengths[len(lengths) // 2][0] <= 12
    assert lengths[len(lengths) * 9 // 10][0] <= 30


STAGES = ("hear", "understand", "head", "describe", "speak", "session", "journal", "live", "phrasebook")


@pytest.mark.parametrize("stage", STAGES)
def test_a_stage_begins_with_half_a_page_on_how_it_works_and_why(stage: str) -> None:
    theory = ast.get_docstring(ast.parse((ROOT / "voicecoach" / stage / "__init__.py").read_text())) or ""
    assert 15 <= len(theory.splitlines()) <= 40
    told = " ".join(theory.split())
    assert "What comes in: " in told
    assert "What goes out: " in told
    assert re.search(r"\bmay not\b|\bnothing else\b|\bnever what\b|\bno stage\b", told), (
        "what may it not know?"
    )
