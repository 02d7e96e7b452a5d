"""The JSON Schemas in the repository are those of the values, and what is printed keeps to them."""

import json
import subprocess
import sys

import jsonschema
import pytest

from tests.schemas import LINES, file, schema
from voicecoach import describe
from voicecoach.conversation import Conversation
from voicecoach.hear.values import Heard
from voicecoach.places import scenarios
from voicecoach.session.view import json_line, replay_line, turn_line
from voicecoach.story import read_story


@pytest.mark.parametrize("name", LINES)
def test_the_schema_file_is_written_from_the_values(name: str) -> None:
    assert file(name).read_text(encoding="utf-8") == schema(name), "run: python -m tests.schemas"


@pytest.mark.parametrize("first", ["Literal['left', 'right'] | None", "Literal['right', 'left'] | None"])
def test_the_schemas_are_the_same_whichever_of_two_equal_choices_was_named_first(first: str) -> None:
    imports = "from tests.schemas import LINES, schema"
    program = f"from typing import Literal; {first}; {imports}; print(*map(schema, LINES))"
    ran = subprocess.run([sys.executable, "-c", program], check=True, capture_output=True, text=True)
    assert ran.stdout == " ".join(schema(name) for name in LINES) + "\n"


def test_every_line_of_a_story_keeps_to_the_schema() -> None:
    turns = jsonschema.Draft202012Validator(json.loads(schema("turn")))
    conversation = Conversation()
    story = read_story(scenarios() / "first_end" / "story.yaml")
    for text in [*(step.say for step in story.steps), "eighty centimetres", "our first is dead", "aim"]:
        entry = conversation.hear(Heard(text=text))
        turns.validate(json.loads(json_line(turn_line(entry, conversation.picture()))))


def test_a_replay_keeps_to_the_schema() -> None:
    conversation = Conversation()
    for text in ("our first, eighty centimetres, two o'clock", "their first, a metre, six o'clock"):
        conversation.hear(Heard(text=text))
    seen = conversation.picture()
    line = json_line(replay_line(["Words."], seen, describe.order(seen)))
    jsonschema.Draft202012Validator(json.loads(schema("replay"))).validate(json.loads(line))
    assert json.loads(line)["order"] == [
        {"side": "theirs", "number": 1},
        "jack",
        {"side": "ours", "number": 1},
    ]
