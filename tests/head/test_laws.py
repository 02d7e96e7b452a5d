"""The table of laws: each has a test that exists, and each law that the code names has a row."""

import ast
import re
from pathlib import Path

import pytest

import voicecoach.head
from voicecoach.head.laws import LAWS

HEAD = Path(voicecoach.head.__file__).parent
NUMBER = re.compile(r"^([1-9]\d?)(\.\d{1,2})*$")


def names_of_tests_here() -> set[str]:
    """The names of every test function beside this file."""
    names = set()
    for path in Path(__file__).parent.glob("test_*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.FunctionDef) and node.name.startswith("test_"):
                names.add(node.name)
    return names


def laws_in_the_code() -> set[str]:
    """Every string in the head's code that is a law's number."""
    found = set()
    for path in HEAD.glob("*.py"):
        if path.name != "laws.py":
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if (
                    isinstance(node, ast.Constant)
                    and isinstance(node.value, str)
                    and NUMBER.match(node.value)
                ):
                    found.add(node.value)
    return found


@pytest.mark.parametrize("law", LAWS, ids=lambda law: law.number)
def test_every_law_in_the_table_is_covered_by_a_test_that_exists(law: voicecoach.head.laws.Law) -> None:
    assert law.test in names_of_tests_here()
    assert law.edition in ("CM1", "CM3", "CM4")
    assert law.line.endswith(".")


def test_every_law_that_the_code_names_is_in_the_table() -> None:
    named = laws_in_the_code()
    assert {"10.1.3", "17.1.1", "23"} <= named, "the search finds what is there"
    assert named <= {law.number for law in LAWS}


def test_no_law_has_two_rows() -> None:
    numbers = [law.number for law in LAWS]
    assert len(set(numbers)) == len(numbers)
