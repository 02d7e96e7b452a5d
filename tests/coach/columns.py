"""Print the export's columns for voicecoach/guide/export.md: `python -m tests.coach.columns`."""

from types import NoneType
from typing import Any, get_args

from voicecoach.coach.rows import Row


def columns() -> str:
    """One line of a Markdown table for each column: its name, its type, what it holds."""
    lines = ["| column | type | what it holds |", "|---|---|---|"]
    told = Row.model_json_schema()["properties"]
    for name, field in Row.model_fields.items():
        optional = NoneType in get_args(field.annotation)
        kind = f"{_kind(field.annotation)}{', may be empty' if optional else ''}"
        lines.append(f"| `{name}` | {kind} | {told[name]['description']} |")
    return "\n".join(lines) + "\n"


def _kind(annotation: Any) -> str:
    names = {int: "whole number", float: "number", str: "text", bool: "true or false"}
    if NoneType in get_args(annotation):
        return next(_kind(part) for part in get_args(annotation) if part is not NoneType)
    return names.get(annotation, "word")


if __name__ == "__main__":
    print(columns(), end="")
