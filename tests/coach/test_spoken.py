"""The round before play and practice by voice: real recordings, a virtual microphone, virtual headphones."""

import os
import queue
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.live.session import LiveSession
from tests.virtual_sound import VirtualSound
from voicecoach import journal
from voicecoach.coach import before
from voicecoach.coach.cues import Cues, agreed
from voicecoach.coach.profile import Profile
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.recordings import blocks
from voicecoach.personal import read_profile, write_profile
from voicecoach.places import scenarios
from voicecoach.practice_log import read_results
from voicecoach.session.values import Entry
from voicecoach.understand.notes.settings import BeforePlay

SOUNDS = Path(__file__).parent / "sounds"
"""Each file is named by what it says; chatter.wav is "have you done the sandwiches for tea". The voices are
flite's rms, and slt for the chatter, freely licensed."""
WITHIN_S = 240.0


class Session:
    """A command on the virtual devices; what it prints is followed as it comes."""

    def __init__(self, process: "subprocess.Popen[str]") -> None:
        self.process = process
        self._lines: queue.Queue[str] = queue.Queue()
        self.reading = threading.Thread(target=self._follow, daemon=True)
        self.reading.start()

    def wait_for(self, words: str) -> None:
        seen, deadline = "", time.monotonic() + WITHIN_S
        while words not in seen:
            try:
                seen += self._lines.get(timeout=max(0.0, deadline - time.monotonic()))
            except queue.Empty:
                pytest.fail(f"{words!r} was never printed, only: {seen}")

    def _follow(self) -> None:
        assert self.process.stdout is not None
        for line in self.process.stdout:
            self._lines.put(line)


@contextmanager
def running(sound: VirtualSound, home: Path, *order: str) -> Iterator[Session]:
    devices = ["--microphone", sound.microphone, "--headphones", sound.headphones]
    process = subprocess.Popen(
        [sys.executable, "-u", "-m", "voicecoach", *order, *devices],
        env=os.environ | {"VOICECOACH_CONFIG": str(home), "XDG_DATA_HOME": str(home)},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )
    with process:
        session = Session(process)
        try:
            session.wait_for("Listening on")
            yield session
            assert process.wait(timeout=WITHIN_S) == 0
        finally:
            process.kill()
            session.reading.join()


@pytest.fixture(scope="module")
def recogniser(model_path: Path) -> Recogniser:
    return Recogniser(model_path, Cues(before.phrases()))


@pytest.mark.parametrize(
    ("name", "cue"),
    [("done", "done"), ("skip", "skip"), ("again", "again"), ("stop", "stop"), ("chatter", None)],
)
def test_an_answer_is_heard_and_chatter_is_not(recogniser: Recogniser, name: str, cue: str | None) -> None:
    ear = Ear(recogniser, lambda text: before.cue_of(text) is not None)
    heard = [agreed(each, before.cue_of) for each in ear.listen(blocks(SOUNDS / f"{name}.wav"), name)]
    assert heard == [cue]


def values(entries: tuple[Entry, ...]) -> list[str]:
    return [entry.note.value for entry in entries if isinstance(entry.note, BeforePlay)]


def test_the_round_before_play_is_gone_by_voice(
    sound_server: VirtualSound, model_path: Path, tmp_path: Path
) -> None:
    kept = tmp_path / "today.jsonl"
    with running(sound_server, tmp_path, "before", "--journal", str(kept)) as session:
        session.wait_for("The rooms.")
        sound_server.play_into_microphone(SOUNDS / "chatter.wav")
        sound_server.play_into_microphone(SOUNDS / "done.wav")
        session.wait_for("The way to the green.")
        sound_server.play_into_microphone(SOUNDS / "skip.wav")
        session.wait_for("If something happens.")
        sound_server.play_into_microphone(SOUNDS / "stop.wav")
        session.wait_for("Director, say that back")
        sound_server.play_into_microphone(SOUNDS / "done.wav")
        session.wait_for("The round is over.")
    found = values(journal.read(kept)[0])
    assert found[:2] == ["shown: the rooms", "left out: the way to the green"]
    assert found[-1] == "said back"


def test_a_bowl_is_called_by_voice(sound_server: VirtualSound, model_path: Path, tmp_path: Path) -> None:
    order = ("practice", "calling", "--bowls", "1", "--seed", "3", "--silent")
    with running(sound_server, tmp_path, *order) as session:
        session.wait_for("Our first:")
        sound_server.play_into_microphone(scenarios() / "first_end" / "11-ours.wav")  # 30 cm at one o'clock
        session.wait_for("Practice is over.")
    (result,) = read_results(tmp_path / "voicecoach" / "practice.yaml")
    assert (result.of, result.bowls) == (2, 1)
    assert result.distance_ratio == pytest.approx(0.3 / 1.41, abs=0.01)


def test_a_live_session_goes_by_the_profile_and_writes_it(
    sound_server: VirtualSound, model_path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("VOICECOACH_CONFIG", str(tmp_path))
    write_profile(Profile(units="feet", rate=2), tmp_path / "profile.yaml")
    with LiveSession(sound_server, tmp_path / "game.jsonl") as session:
        session.type("our first, one metre, two o'clock")
        session.type("where is our first")
        session.wait_for("three feet")
        session.type("whole hours")
        session.type("keep my settings")
        session.wait_for("Settings kept for next time.")
    assert read_profile(tmp_path / "profile.yaml") == Profile(units="feet", rate=2, hours="whole")
