"""The JSON Schemas of what is printed and kept: `python -m tests.schemas` writes them from the values."""

import json
from pathlib import Path
from typing import Any

from voicecoach.journal.values import JournalLine
from voicecoach.live.sound_folder import KeptSound
from voicecoach.session.view import ReplayLine, TurnLine
from voicecoach.value import Value

FOLDER = Path(__file__).parents[1] / "voicecoach" / "schemas"
LINES: dict[str, type[Value]] = {
    "turn": TurnLine,
    "replay": ReplayLine,
    "journal": JournalLine,
    "kept": KeptSound,
}
"""Each kind of line and the value it is written from."""


def schema(name: str) -> str:
    """The schema of one kind of line, as the text of its file."""
    return json.dumps(_in_order(LINES[name].model_json_schema(mode="serialization")), indent=2) + "\n"


def _in_order(schema: Any) -> Any:
    """The same schema with the words of each choice in order.

    Python takes two `Literal` types of the same words for one, and keeps the order that it saw first: which
    modules were imported before must not show.
    """
    if isinstance(schema, list):
        return [_in_order(each) for each in schema]
    if not isinstance(schema, dict):
        return schema
    return {
        key: sorted(value, key=str) if key == "enum" else _in_order(value) for key, value in schema.items()
    }


def file(name: str) -> Path:
    """Where the schema of one kind of line is kept."""
    return FOLDER / f"{name}.schema.json"


if __name__ == "__main__":
    for each in LINES:
        file(each).write_text(schema(each), encoding="utf-8")
