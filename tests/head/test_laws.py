"""The table of laws: each row has a test that exists, each law in the code has a row, a command prints it."""

import ast
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

import voicecoach.head
from voicecoach.__main__ import voicecoach as program
from voicecoach.phrasebook.laws import Law, edition, laws

LAWS = laws()
COVERED_BY = {
    "5.4": "test_who_won_the_last_scoring_end_leads",
    "6.1.1": "test_the_edges_of_the_mat_line_are_asked_about_with_law_6_1_1",
    "9.2": "test_a_jack_under_two_metres_from_the_front_ditch_is_asked_about",
    "10.1.3": "test_the_shortest_jack_is_twenty_three_metres",
    "14.1": "test_a_bowl_that_rests_against_the_jack_is_a_toucher",
    "15.1": "test_a_toucher_named_after_the_next_bowl_rested_is_asked_about",
    "17.1.1": "test_a_bowl_in_the_ditch_lives_only_as_a_toucher",
    "17.1.3": "test_a_bowl_dies_under_fourteen_metres_and_lives_at_fourteen",
    "17.1.4": "test_a_bowl_knocked_out_of_the_rink_is_dead",
    "17.1.6": "test_a_bowl_outside_the_rink_is_asked_about_once_the_rink_is_set",
    "18.1": "test_a_jack_in_the_ditch_is_live_and_lies_on_the_ditchs_edge",
    "19": "test_a_jack_that_comes_back_dies_under_twenty_metres_and_lives_at_twenty",
    "20": "test_a_dead_end_is_played_again_under_its_own_number_without_a_score",
    "23": "test_shots_agree_with_the_referee_over_random_ends_of_every_format",
    "23.1": "test_an_end_with_bowls_of_the_format_uncalled_is_asked_about",
    "23.3": "test_a_tape_before_the_last_bowl_is_pointed_out",
    "24": "test_an_end_without_a_shot_counts_and_leaves_the_score",
    "40.4": "test_equal_centres_leave_the_larger_bowl_nearer",
    "46.2": "test_sizes_beyond_the_laws_are_asked_about",
    "49.1": "test_sizes_beyond_the_laws_are_asked_about",
    "51.2": "test_sizes_beyond_the_laws_are_asked_about",
    "52": "test_sizes_beyond_the_laws_are_asked_about",
    "C.26": "test_jack_high_compares_nearest_parts",
}
"""The test function that covers each law, in this folder."""
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
    for path in HEAD.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and NUMBER.match(node.value):
                found.add(node.value)
    return found


@pytest.mark.parametrize("law", LAWS, ids=lambda law: law.number)
def test_every_law_in_the_table_is_covered_by_a_test_that_exists(law: Law) -> None:
    assert COVERED_BY[law.number] in names_of_tests_here()
    assert law.edition in ("CM1", "CM3", "CM4")
    assert law.line.endswith(".")


def test_every_law_that_the_code_names_is_in_the_table() -> None:
    named = laws_in_the_code()
    assert {"10.1.3", "17.1.1", "23"} <= named, "the search finds what is there"
    assert named <= {law.number for law in LAWS}


def test_no_law_has_two_rows() -> None:
    numbers = [law.number for law in LAWS]
    assert len(set(numbers)) == len(numbers)


def test_the_command_prints_each_law_on_a_line_of_its_own_with_its_edition() -> None:
    printed = CliRunner().invoke(program, ["laws"], catch_exceptions=False).output.splitlines()
    assert len(printed) == len(LAWS)
    for line, law in zip(printed, LAWS, strict=True):
        assert line == f"Law {law.number} ({edition(law)}): {law.line}"
