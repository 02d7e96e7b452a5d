"""Where results of practice are kept: a list in a YAML file of the user's data folder."""

from pathlib import Path

import yaml
from platformdirs import user_data_path
from pydantic import TypeAdapter, ValidationError

from voicecoach.coach.results import Result
from voicecoach.errors import DataProblem, Problem, shown, what_to_do, why
from voicecoach.faults import first_fault
from voicecoach.whole_file import write_whole
from voicecoach.yaml_file import read_yaml

_RESULTS: TypeAdapter[tuple[Result, ...]] = TypeAdapter(tuple[Result, ...])
LARGEST = 10_000_000
"""The largest file that is read, bytes; a round takes some two hundred."""


def log_path() -> Path:
    """The file of results."""
    return user_data_path("voicecoach", appauthor=False) / "practice.yaml"


def read_results(path: Path) -> tuple[Result, ...]:
    """Every result, oldest first; none when there is no file yet.

    Raises:
        DataProblem: The file can't be read, or holds something else.
    """
    if not path.exists():
        return ()
    entries = read_yaml(path, LARGEST, "The list of practice")
    try:
        return _RESULTS.validate_python(entries or ())
    except ValidationError as problem:
        fault = first_fault(problem, "the list", ", ".join(Result.model_fields))
        raise DataProblem(
            f"The results of practice in {shown(path)} can't be read: {fault}. "
            "Put that right, or move the file away."
        ) from problem


def add_result(result: Result, path: Path) -> None:
    """Add one result at the end of the file, whole or not at all.

    Raises:
        Problem: It can't be written.
    """
    line = yaml.safe_dump(
        [result.model_dump(exclude_none=True)], default_flow_style=None, sort_keys=False, width=1000
    )
    try:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        before = path.read_text(encoding="utf-8") if path.exists() else ""
    except (OSError, UnicodeDecodeError) as problem:
        error = problem if isinstance(problem, OSError) else OSError("it isn't text")
        raise Problem(f"{shown(path)} can't be written: {why(error)}. {what_to_do(error)}") from None
    write_whole(path, [before, line])
