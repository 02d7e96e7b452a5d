"""The JSON Schemas of what is printed and kept: `python -m tests.schemas` writes them from the values."""

import json
from pathlib import Path

from voicecoach.journal.values import Line
from voicecoach.session.view import ReplayLine, TurnLine
from voicecoach.value import Value

FOLDER = Path(__file__).parents[1] / "voicecoach" / "schemas"
LINES: dict[str, type[Value]] = {"turn": TurnLine, "replay": ReplayLine, "journal": Line}
"""Each kind of line and the value it is written from."""


def schema(name: str) -> str:
    """The schema of one kind of line, as the text of its file."""
    return json.dumps(LINES[name].model_json_schema(mode="serialization"), indent=2) + "\n"


def file(name: str) -> Path:
    """Where the schema of one kind of line is kept."""
    return FOLDER / f"{name}.schema.json"


if __name__ == "__main__":
    for each in LINES:
        file(each).write_text(schema(each), encoding="utf-8")
