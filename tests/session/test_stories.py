"""Every story of the scenarios folder, run as text: the outcomes and the head are as written."""

from pathlib import Path

import pytest

from voicecoach.conversation import Conversation
from voicecoach.hear.values import Heard
from voicecoach.places import scenarios
from voicecoach.session.view import head_line
from voicecoach.story import Story, cut, read_story, write_story

STORIES = sorted(scenarios().glob("*/story.yaml"))


def tell(story: Story) -> Conversation:
    conversation = Conversation()
    for step in story.steps:
        entry = conversation.hear(Heard(text=step.say))
        assert entry.outcome == step.outcome, (step.say, entry.say)
    return conversation


def assert_lies_as_written(story: Story, conversation: Conversation) -> None:
    bowls = {(bowl.side, bowl.number): bowl for bowl in head_line(conversation.picture()).bowls}
    assert set(bowls) == {(lying.side, lying.number) for lying in story.head}
    for lying in story.head:
        bowl = bowls[lying.side, lying.number]
        assert bowl.state == lying.state
        assert bowl.hour == lying.hour, lying
        assert bowl.gap_m == pytest.approx(lying.gap_m, abs=0.005), lying


@pytest.mark.parametrize("path", STORIES, ids=lambda path: path.parent.name)
def test_a_story_told_as_text_ends_in_its_head(path: Path) -> None:
    story = read_story(path)
    assert_lies_as_written(story, tell(story))


@pytest.mark.parametrize("path", STORIES, ids=lambda path: path.parent.name)
def test_every_recording_of_a_story_is_there(path: Path) -> None:
    assert [
        step.audio
        for step in read_story(path).steps
        if step.audio and not (path.parent / step.audio).is_file()
    ] == []


def test_there_are_stories() -> None:
    assert STORIES


def test_a_story_cut_from_a_session_runs_again_to_the_same_head(tmp_path: Path) -> None:
    story = read_story(STORIES[0])
    entries = []
    conversation = Conversation()
    for step in story.steps:
        entries.append(conversation.hear(Heard(text=step.say)))
    again = tmp_path / "story.yaml"
    again.write_text(write_story(cut(tuple(entries), head_line(conversation.picture()).bowls, "Cut")))
    cut_story = read_story(again)
    assert len(cut_story.steps) == len(story.steps)
    assert_lies_as_written(cut_story, tell(cut_story))


def test_whose_it_was_said_after_the_jack_moved_means_the_last_bowl() -> None:
    conversation = Conversation()
    for text in ("our first, a metre, two o'clock", "jack moved half a metre back", "that was theirs"):
        entry = conversation.hear(Heard(text=text))
    assert entry.say[0].text == "Their first: ninety centimetres, three o'clock."
    assert [(lie.side, lie.number) for lie in conversation.picture().lies] == [("theirs", 1)]


def test_an_hour_called_between_two_is_spoken_between_them() -> None:
    conversation = Conversation()
    entry = conversation.hear(Heard(text="our first, two metres, between four and five"))
    assert entry.say[0].text == "Our first: two metres, between four and five o'clock."
    assert conversation.picture().lies[0].between == (4, 5)
