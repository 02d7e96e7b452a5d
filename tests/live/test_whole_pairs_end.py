"""The last end of the pairs in the rain, whole, by voice alone: a group at a time, faster, and the walk."""

from pathlib import Path

from tests.live.by_voice import MAIN_DECODE, as_text, assert_understood, end_by_voice, said_of, spoken_steps
from tests.virtual_sound import VirtualSound
from voicecoach import journal, phrasebook
from voicecoach.head import picture
from voicecoach.hear.recogniser import Recogniser
from voicecoach.places import scenarios
from voicecoach.session.replay import moment
from voicecoach.story import read_story

STORY = read_story(scenarios() / "rainy_pairs" / "story.yaml")
BEGINS = max(number for number, step in enumerate(STORY.steps) if step.say == "next end") + 1
"""The game is under way: what was said before this step is in the journal when the voice takes over."""


def test_a_whole_end_of_pairs_and_the_walk_after_it_go_by_voice_as_they_go_as_text(
    sound_server: VirtualSound, model_path: Path, tmp_path: Path
) -> None:
    kept = tmp_path / "live.jsonl"
    as_text(STORY.steps[:BEGINS], kept)
    steps = spoken_steps(STORY, STORY.steps[BEGINS:], tmp_path)
    with end_by_voice(sound_server, kept) as end:
        for step, recording in steps:
            end.say(step, recording)
    live, typed = journal.read(kept)[0], as_text(STORY.steps)
    assert said_of(live) == said_of(typed)
    assert {entry.heard.source for entry in live[BEGINS:]} == {sound_server.microphone}
    assert picture(moment(live).play.head) == picture(moment(typed).play.head)
    assert_understood(end.turns, tmp_path, Recogniser(model_path, phrasebook.load(), MAIN_DECODE))
