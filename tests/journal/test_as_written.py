"""What an earlier program wrote is read for ever: journals, a profile, a story, results of practice.

The files in `as_written` were made with the program of November 2026 by typing to it (`heard.jsonl`: by
recordings) and are never made anew. Beside each journal stands what it came to then: the head after each
entry that changed it, and at the end how the listener wants to hear.
"""

import json
from pathlib import Path
from typing import Any, get_args

import pytest

from voicecoach.conversation import Conversation
from voicecoach.head import picture
from voicecoach.hear.values import Heard
from voicecoach.journal import read
from voicecoach.personal import read_profile
from voicecoach.practice_log import read_results
from voicecoach.session.talk import Talk, step
from voicecoach.session.values import Outcome
from voicecoach.session.view import head_line
from voicecoach.story import read_story

FOLDER = Path(__file__).parent / "as_written"
JOURNALS = ("journal", "another", "heard")
KINDS = [
    "bowl_rested",
    "bowl_moved",
    "jack_set",
    "jack_moved",
    "taken_back",
    "corrected",
    "question",
    "end_started",
    "end_finished",
    "game_set",
    "measured",
    "setting",
    "walk",
    "aim",
]
"""Every kind of note that this program had and a journal can hold."""
SETTINGS = [
    "rate",
    "volume",
    "stop",
    "units",
    "hours",
    "form",
    "order",
    "sides",
    "stands",
    "call word",
    "player",
    "pace",
    "facing",
    "remark",
    "unasked",
    "cue",
    "keep",
    "eye",
    "mark",
    "before",
    "another game",
]
TOPICS = [
    "head",
    "ours",
    "theirs",
    "nearest four",
    "changed",
    "holding",
    "count",
    "nearest",
    "bowl",
    "last",
    "short",
    "round the clock",
    "ditch",
    "score",
    "my turn",
    "jack",
    "behind",
    "next up",
    "bowls left",
    "end",
    "again",
    "go on",
    "next",
    "back",
    "game",
    "cautions",
    "picture",
    "remarks",
]


def _raw(name: str) -> list[dict[str, Any]]:
    lines = (FOLDER / f"{name}.jsonl").read_text(encoding="utf-8").splitlines()
    return [json.loads(line)["entry"] for line in lines]


def replayed(name: str) -> tuple[list[dict[str, Any]], Talk]:
    """Each head that differs from the one before, with the number of its entry, and the talk at the end."""
    entries, repair = read(FOLDER / f"{name}.jsonl")
    assert repair is None
    talk, heads, last = Talk(), [], ""
    for entry in entries:
        talk = step(talk, entry)
        line = head_line(picture(talk.play.head)).model_dump_json()
        if line != last:
            heads.append({"number": entry.number, "head": json.loads(line)})
        last = line
    return heads, talk


def listener(talk: Talk) -> dict[str, Any]:
    """How the listener wants to hear at the end, what was remarked, and how the game is played."""
    remarks = [[name and [name.side, name.number], text] for name, text in talk.remarks]
    manner = talk.manner.model_dump(mode="json")
    return {"manner": manner, "remarks": remarks, "game": talk.play.head.game.model_dump(mode="json")}


def _of_then(now: Any, then: Any) -> Any:
    """What is there now of the fields that there were then: later versions may know more of them."""
    if not isinstance(now, dict) or not isinstance(then, dict):
        return now
    return {name: _of_then(value, then[name]) for name, value in now.items() if name in then}


@pytest.mark.parametrize("name", JOURNALS)
def test_a_journal_written_before_replays_to_the_same_heads(name: str) -> None:
    expected = json.loads((FOLDER / f"{name}.heads.json").read_text(encoding="utf-8"))
    heads, talk = replayed(name)
    assert [each["number"] for each in heads] == [each["number"] for each in expected["heads"]]
    for now, then in zip(heads, expected["heads"], strict=True):
        assert now == then
    assert _of_then(listener(talk), expected["listener"]) == expected["listener"]


def test_the_journal_holds_every_kind_of_note_setting_and_question_that_there_was() -> None:
    entries = [entry for name in JOURNALS for entry in _raw(name)]
    notes = [entry["note"] for entry in entries if entry["note"]]
    assert {note["kind"] for note in notes} == set(KINDS)
    assert {note["name"] for note in notes if note["kind"] == "setting"} == set(SETTINGS)
    assert {note["ask"] for note in notes if note["kind"] == "question"} == set(TOPICS)
    assert {entry["outcome"] for entry in entries} == set(get_args(Outcome))


@pytest.mark.parametrize("name", JOURNALS)
def test_a_journal_written_before_is_gone_on_with(name: str, tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    path.write_bytes((FOLDER / f"{name}.jsonl").read_bytes())
    with Conversation(path) as conversation:
        entry = conversation.hear(Heard(text="theirs, forty centimetres, five o'clock"))
    assert entry.outcome == "noted"
    assert entry.number == len(_raw(name)) + 1
    assert read(path)[0][-1] == entry


def test_a_profile_written_before_is_read_whole() -> None:
    expected = json.loads((FOLDER / "profile.json").read_text(encoding="utf-8"))
    profile = read_profile(FOLDER / "profile.yaml")
    since = dict.fromkeys(type(profile).model_fields)  # what was added since isn't set
    assert json.loads(profile.model_dump_json()) == {**since, **expected}
    assert None not in expected.values()


def test_a_story_written_before_ends_with_the_same_head() -> None:
    story = read_story(FOLDER / "story.yaml")
    conversation = Conversation(remember=lambda _talk: None)
    outcomes = [conversation.hear(Heard(text=each.say)).outcome for each in story.steps]
    assert outcomes == [each.outcome for each in story.steps]
    lying = {(bowl.side, bowl.number): bowl for bowl in head_line(conversation.picture()).bowls}
    assert len(lying) == len(story.head) > 0
    for bowl in story.head:
        found = lying[(bowl.side, bowl.number)]
        assert (found.gap_m, found.hour, found.state) == (bowl.gap_m, bowl.hour, bowl.state)


def test_results_of_practice_written_before_are_read() -> None:
    results = read_results(FOLDER / "practice.yaml")
    assert [each.kind for each in results] == ["calling", "questions", "saying back"]
    assert (results[0].right, results[0].of, results[0].distance_off) == (0, 8, 2.1838)
