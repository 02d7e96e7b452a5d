"""Threads that outlive what the sound system does to them: the voice, the ear, the care of the devices."""

import os
import queue
import subprocess
import threading
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager

import pytest

from tests.live.test_microphone_trouble import FOLDER, Care, heard, listening, suspend
from tests.virtual_sound import VirtualSound
from voicecoach.describe.values import Sentence
from voicecoach.errors import DeviceProblem
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.live import devices as devices_module
from voicecoach.live.devices import Devices
from voicecoach.live.inputs import FAILED as NOT_HEARD
from voicecoach.live.inputs import Inputs, Listening, Notice
from voicecoach.live.speaking import BACK, FAILED, Speaking
from voicecoach.live.watching import Watch
from voicecoach.speak.mouth import Mouth
from voicecoach.speak.voice import VoiceProblem

FIRST, SECOND, THIRD = (
    Sentence(text=f"Our {nth}: a metre, two o'clock.") for nth in ("first", "second", "third")
)
GONE = "There are no headphones called headphones."


class Trips(Mouth):
    """A mouth on real headphones that meets something before it speaks, as often as it is told to."""

    def __init__(self, device: str, *meets: Exception) -> None:
        super().__init__(device)
        self._meets = list(meets)
        self.said: list[Sentence] = []

    def say(self, sentences: Sequence[Sentence], stopped: threading.Event | None = None) -> int:
        if self._meets:
            raise self._meets.pop(0)
        spoken = super().say(sentences, stopped)
        self.said += sentences[:spoken]
        return spoken


class Voiced:
    """A voice that trips, what it told, and how often the devices were looked for again."""

    def __init__(self, mouth: Trips) -> None:
        self.mouth = mouth
        self.told: list[str] = []
        self.looked_again = 0
        self.speaking = Speaking(mouth, self.told.append, self._look_again)
        self.speaking.start()

    def say(self, sentence: Sentence) -> None:
        self.speaking.say((sentence,))
        assert self.speaking.finish(30)

    def _look_again(self) -> None:
        self.looked_again += 1


@contextmanager
def voiced(sound_server: VirtualSound, *meets: Exception) -> Iterator[Voiced]:
    voice = Voiced(Trips(sound_server.headphones, *meets))
    try:
        yield voice
    finally:
        voice.speaking.cut()
        voice.speaking.finish(30)
        voice.mouth.close()


def told_of(problem: str) -> str:
    return f"\a{problem} What is said is printed here."


def test_the_voice_speaks_on_after_an_error_that_nobody_foresaw(sound_server: VirtualSound) -> None:
    errors = (RuntimeError("what the sound library met"), RuntimeError("and again"))
    with voiced(sound_server, *errors) as voice:
        for sentence in (FIRST, SECOND, THIRD):
            voice.say(sentence)
        assert voice.speaking.is_alive()
        assert voice.mouth.said == [THIRD]
        assert voice.told == [told_of(FAILED), "The voice speaks again."], "each once"
        assert voice.looked_again == 0


def test_a_voice_that_fails_leaves_the_devices_alone_and_is_told_apart_from_headphones_that_go(
    sound_server: VirtualSound,
) -> None:
    with voiced(sound_server, VoiceProblem("The voice can't speak: it hangs.")) as voice:
        voice.say(FIRST)
        assert voice.told == [told_of("The voice can't speak: it hangs.")]
        voice.say(SECOND)
        assert voice.told[1:] == [BACK[True]] == ["The voice speaks again."]
        assert voice.mouth.said == [SECOND]
        assert voice.looked_again == 0, "the microphones go on meanwhile"


def test_headphones_that_go_are_looked_for_again_and_what_was_to_be_said_is_said(
    sound_server: VirtualSound,
) -> None:
    with voiced(sound_server, *[DeviceProblem(GONE)] * 3) as voice:
        voice.say(FIRST)  # twice: once more after the devices have been looked at again
        assert voice.looked_again == 1
        assert voice.told == [told_of(GONE)]
        voice.say(SECOND)
        assert voice.looked_again == 2
        assert voice.told[1:] == [BACK[False]] == ["The headphones are back."]
        assert voice.mouth.said == [SECOND]


class CareThatFails(Care):
    """The care of the devices meets something that nobody foresaw, whenever it is asked for."""

    asked = 0

    def refresh(self) -> None:
        self.asked += 1
        raise RuntimeError("what the sound library met")


def test_listening_goes_on_when_reading_the_list_of_devices_fails(
    sound_server: VirtualSound, recogniser: Recogniser
) -> None:
    inputs: Inputs = queue.Queue()
    care = CareThatFails()
    ear = Ear(recogniser)
    thread = Listening(sound_server.microphone, "director", ear, inputs, care)
    thread.start()
    try:
        assert inputs.get(timeout=120) == Notice("Listening on microphone.")
        suspend("spoken", True)
        try:
            gone = inputs.get(timeout=120)
            assert isinstance(gone, Notice)
            assert "has gone" in gone.text
            assert inputs.get(timeout=120) == Notice(NOT_HEARD, at_once=True)
        finally:
            suspend("spoken", False)
        assert inputs.get(timeout=120) == Notice("Listening on microphone.")
        assert care.asked
        time.sleep(1)
        sound_server.play_into_microphone(FOLDER / "13-question.wav")
        assert heard(inputs) == "who holds"
    finally:
        thread.leave()
        thread.join(10)


@pytest.fixture
def cared_for(sound_server: VirtualSound) -> Iterator[Devices]:
    devices = Devices()
    yield devices
    devices.close()


def test_the_devices_are_taken_up_again_although_the_sound_system_did_not_answer(
    sound_server: VirtualSound, recogniser: Recogniser, cared_for: Devices, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = []

    def does_not_answer() -> None:
        asked.append(time.monotonic())
        raise DeviceProblem("The sound system doesn't answer.")

    monkeypatch.setattr(devices_module, "look_again", does_not_answer)
    with listening(sound_server, recogniser) as inputs:
        ear = next(each for each in threading.enumerate() if isinstance(each, Listening))
        cared_for.ears = (ear,)
        cared_for.refresh()
        cared_for.refresh()
        assert len(asked) == 1, "not more than once a second"
        time.sleep(4)  # it is opened again meanwhile
        sound_server.play_into_microphone(FOLDER / "13-question.wav")
        assert heard(inputs) == "who holds", "it was paused, and is taken up again"


def followers() -> int:
    """How many tools that follow the sound server's events this process has running."""
    listed = subprocess.run(
        ["pgrep", "-c", "-P", str(os.getpid()), "-f", "pactl subscribe"],
        capture_output=True,
        text=True,
        check=False,
    )
    return int(listed.stdout)


def test_nothing_follows_the_sound_server_any_more_once_the_devices_are_let_go(
    sound_server: VirtualSound,
) -> None:
    devices = Devices()
    deadline = time.monotonic() + 120
    while not followers() and time.monotonic() < deadline:
        time.sleep(0.05)
    assert followers() == 1
    devices.close()
    assert not any(isinstance(thread, Watch) for thread in threading.enumerate()), "it has ended by then"
    assert followers() == 0
    time.sleep(3)  # the tool is begun anew a second after the sound server has ended it
    assert followers() == 0
