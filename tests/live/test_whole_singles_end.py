"""The first end of the windy game, whole, by voice alone: a list is stopped in it and gone on with."""

from itertools import takewhile
from pathlib import Path

from tests.live.by_voice import MAIN_DECODE, as_text, assert_understood, end_by_voice, said_of, spoken_steps
from tests.virtual_sound import VirtualSound
from voicecoach import journal, phrasebook
from voicecoach.head import picture
from voicecoach.hear.recogniser import Recogniser
from voicecoach.places import scenarios
from voicecoach.session.replay import moment
from voicecoach.story import read_story

STORY = read_story(scenarios() / "windy_singles" / "story.yaml")
STEPS = tuple(takewhile(lambda step: step.say != "start the walk", STORY.steps))
READ, GO_ON = (
    next(n for n, step in enumerate(STEPS) if step.say == say) for say in ("nearest four", "go on")
)


def test_a_whole_end_of_singles_goes_by_voice_as_it_goes_as_text(
    sound_server: VirtualSound, model_path: Path, tmp_path: Path
) -> None:
    kept = tmp_path / "live.jsonl"
    steps = spoken_steps(STORY, STEPS, tmp_path)
    with end_by_voice(sound_server, kept) as end:
        for step, recording in steps:
            if step.say == "nearest four":
                end.say_to_be_interrupted(step, recording, after_s=4.0)
            elif step.say == "stop":
                end.say_only(step, recording)
                assert end.is_silent(within_s=0.6, for_s=1.0)
            else:
                end.say(step, recording)
    live, typed = journal.read(kept)[0], as_text(STEPS)
    whole, rest = said_of(live)[READ][1], said_of(live)[GO_ON][1]
    assert whole.endswith(rest), "it goes on in the sentence in which it was stopped"
    assert 0 < len(rest) < len(whole)
    assert said_of(live)[:GO_ON] == said_of(typed)[:GO_ON]
    assert said_of(live)[GO_ON + 1 :] == said_of(typed)[GO_ON + 1 :]
    assert {entry.heard.source for entry in live} == {sound_server.microphone}
    assert picture(moment(live).play.head) == picture(moment(typed).play.head)
    assert_understood(end.turns, tmp_path, Recogniser(model_path, phrasebook.load(), MAIN_DECODE))
