"""The game as a file: how it is played, written once instead of said."""

from pathlib import Path

import yaml
from pydantic import ValidationError

from voicecoach.errors import DataProblem
from voicecoach.understand.values import GameSet

NAMES = ", ".join(name for name in GameSet.model_fields if name not in ("kind", "confirmed"))
LARGEST = 10_000
"""Bytes; a game is a dozen lines."""


def read_game(path: Path) -> GameSet:
    """The game in a YAML file of the fields of `GameSet`, such as `format: pairs` and `rink_m: 5`.

    Raises:
        DataProblem: It can't be read, or says something that isn't part of a game.
    """
    try:
        with path.open(encoding="utf-8") as file:
            fields = yaml.safe_load(file.read(LARGEST))
        return GameSet.model_validate(fields)
    except (OSError, UnicodeDecodeError, yaml.YAMLError) as problem:
        raise DataProblem(f"The game file {path} can't be read: {problem}.") from problem
    except ValidationError as problem:
        first = problem.errors()[0]
        where = " ".join(str(part) for part in first["loc"]) or "the file"
        raise DataProblem(f"The game file {path}: {where}: {first['msg']}. It may set {NAMES}.") from problem
