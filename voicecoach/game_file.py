"""The game as a file: how it is played, written once instead of said."""

from pathlib import Path

from pydantic import ValidationError

from voicecoach.errors import DataProblem, shown
from voicecoach.faults import first_fault
from voicecoach.understand.values import GameSet
from voicecoach.yaml_file import read_yaml

NAMES = ", ".join(name for name in GameSet.model_fields if name not in ("kind", "confirmed"))
LARGEST = 10_000
"""The largest file that is read, bytes; a game is a dozen lines."""


def read_game(path: Path) -> GameSet:
    """The game in a YAML file of the fields of `GameSet`, such as `format: pairs` and `rink_m: 5`.

    Raises:
        DataProblem: It can't be read, or says something that isn't part of a game.
    """
    try:
        return GameSet.model_validate(read_yaml(path, LARGEST, "The game file"))
    except ValidationError as problem:
        fault = first_fault(problem, "a game file", NAMES)
        raise DataProblem(f"The game file {shown(path)}: {fault}. Put that right.") from problem
