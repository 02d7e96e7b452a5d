"""Headphones on real streams: what is played arrives, stops at once, and a device that goes is noticed."""

import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import suppress
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest
import soundfile

from tests.virtual_sound import VirtualSound
from voicecoach.describe.values import Sentence
from voicecoach.errors import DeviceProblem
from voicecoach.sound.devices import HEADPHONES, named, names
from voicecoach.speak.headphones import Headphones
from voicecoach.speak.loudness import CEILING, TARGET_LUFS, loudness
from voicecoach.speak.mouth import Mouth
from voicecoach.speak.placing import FULL_LEVEL_DB
from voicecoach.speak.values import Samples, Sound
from voicecoach.speak.voice import Voice

THREE = tuple(
    Sentence(text=text, pause_s=0.3)
    for text in ("Our second: eighty centimetres, two o'clock.", "We hold one shot.", "The jack.")
)


@pytest.fixture(scope="module")
def voice() -> Iterator[Voice]:
    with Voice() as speaking:
        yield speaking


def tone(seconds: float, rate_hz: int = 22_050) -> Sound:
    moments = np.arange(round(seconds * rate_hz)) / rate_hz
    return Sound(samples=(0.3 * np.sin(2 * np.pi * 440 * moments)).astype(np.float32), rate_hz=rate_hz)


def heard(recording: object) -> tuple[Samples, int]:
    """What arrived, from its first sound to its last."""
    rows, rate_hz = soundfile.read(recording, dtype="float32")
    loud = np.flatnonzero(np.abs(rows).max(axis=1) > 0.003)
    return rows[loud[0] : loud[-1] + 1] if len(loud) else rows[:0], rate_hz


def test_sentences_arrive_whole_with_their_pauses_and_at_their_loudness(
    sound_server: VirtualSound, voice: Voice
) -> None:
    mouth = Mouth(sound_server.headphones, voice)
    expected_s = mouth.render(THREE).seconds
    rows, rate_hz = np.zeros((0, 2), np.float32), 1
    for _ in range(3):  # on a machine that is busy with other work the sound may stop for a moment
        with sound_server.record_headphones() as recording:
            assert mouth.say(THREE) == len(THREE)
        rows, rate_hz = heard(recording.wav)
        if len(rows) / rate_hz == pytest.approx(expected_s, abs=0.15):
            break
    assert len(rows) / rate_hz == pytest.approx(expected_s, abs=0.15)
    assert loudness(rows[:, 0], rate_hz) == pytest.approx(TARGET_LUFS, abs=1.0)
    assert np.abs(rows).max() <= CEILING + 0.001


def test_a_bowl_on_the_left_is_louder_in_the_left_ear_of_the_headphones(
    sound_server: VirtualSound, voice: Voice
) -> None:
    mouth = Mouth(sound_server.headphones, voice, placed=True)
    with sound_server.record_headphones() as recording:
        mouth.say([Sentence(text="Ours, nine o'clock.", place=(-1.0, 0.0))])
    rows, _ = heard(recording.wav)
    power = np.mean(rows**2, axis=0)
    assert 10 * np.log10(power[0] / power[1]) == pytest.approx(FULL_LEVEL_DB, abs=0.5)


def test_the_sound_picture_is_played_to_its_end(sound_server: VirtualSound, voice: Voice) -> None:
    mouth = Mouth(sound_server.headphones, voice)
    with sound_server.record_headphones() as recording:
        assert mouth.show([(0.5, -1.0), (0.0, 0.0)], ["theirs", "jack"])
    rows, rate_hz = heard(recording.wav)
    assert 0.5 < len(rows) / rate_hz < 4.0


def test_speech_starts_once_its_first_sentence_is_made_and_does_not_wait_for_the_next(
    sound_server: VirtualSound,
) -> None:
    headphones = Headphones(sound_server.headphones)
    playing: list[bool] = []

    def pieces() -> Iterator[Sound]:
        for _ in range(3):
            playing.append(headphones.stream.active)
            yield tone(0.2)

    assert headphones.play(pieces()) == 3
    assert playing == [False, True, True]


@pytest.mark.parametrize("after_s", [0.4, 1.1, 1.7])
def test_a_stop_drops_what_the_device_still_holds(after_s: float, sound_server: VirtualSound) -> None:
    headphones = Headphones(sound_server.headphones)
    stopped = threading.Event()
    with sound_server.record_headphones() as recording:
        threading.Timer(after_s, stopped.set).start()
        assert headphones.play([tone(60.0)], stopped) == 0
    rows, rate_hz = heard(recording.wav)
    assert headphones.device is not None
    given_s = headphones._feed.given / headphones.device.rate_hz
    assert given_s < 60, "nothing more is handed over"
    assert len(rows) / rate_hz <= given_s + 0.1, "how soon it is silent, `make bench-speed` prints"


def test_after_a_stop_the_first_sentence_not_finished_is_known(
    sound_server: VirtualSound, voice: Voice
) -> None:
    mouth = Mouth(sound_server.headphones, voice)
    long = Sentence(text="Their eleventh: two metres and seventy centimetres, half past eleven, left.")
    sentences = (THREE[1], long, THREE[2])
    first_s, both_s = mouth.render(sentences[:1]).seconds, mouth.render(sentences[:2]).seconds
    mouth.render(sentences)
    found = []
    with sound_server.record_headphones():  # nobody listening, the virtual device takes its time
        for after_s in (0.5 * first_s, 0.5 * (first_s + both_s)):
            stopped = threading.Event()
            threading.Timer(after_s, stopped.set).start()
            found.append(mouth.say(sentences, stopped))
    assert found == [0, 1]


def test_a_stop_before_the_first_word_says_nothing(sound_server: VirtualSound, voice: Voice) -> None:
    stopped = threading.Event()
    stopped.set()
    with sound_server.record_headphones() as recording:
        assert Mouth(sound_server.headphones, voice).say(THREE, stopped) == 0
    assert len(heard(recording.wav)[0]) == 0


def test_a_sound_thread_that_was_held_up_goes_on_where_it_was(
    sound_server: VirtualSound, monkeypatch: pytest.MonkeyPatch
) -> None:
    headphones = Headphones(sound_server.headphones)
    asked, count = headphones._asked, iter(range(10_000))

    def slow(block: Samples, frames: int, when: Any, status: Any) -> None:
        if next(count) == 5:
            time.sleep(0.6)  # the device runs dry
        asked(block, frames, when, status)

    monkeypatch.setattr(headphones, "_asked", slow)
    with sound_server.record_headphones() as recording:
        assert headphones.play([tone(1.0), tone(1.0)]) == 2
    rows, rate_hz = heard(recording.wav)
    assert np.sum(np.abs(rows[:, 0]) > 0.01) / rate_hz == pytest.approx(2.0, abs=0.4)


def test_a_stream_that_takes_all_and_plays_nothing_is_opened_anew_and_nothing_is_lost(
    sound_server: VirtualSound, monkeypatch: pytest.MonkeyPatch
) -> None:
    headphones = Headphones(sound_server.headphones)
    asked, count = headphones._asked, iter(range(10_000))
    sound = tone(2.0)

    def dry(block: Samples, frames: int, when: Any, status: Any) -> None:
        """Some blocks at which the device says that it ran dry, and is given nothing to play."""
        ran_dry = 5 <= next(count) <= 9
        asked(block, frames, when, SimpleNamespace(output_underflow=ran_dry))
        if ran_dry:
            block.fill(0)

    monkeypatch.setattr(headphones, "_asked", dry)
    with sound_server.record_headphones() as recording:
        assert headphones.play([sound]) == 1
    rows, rate_hz = heard(recording.wav)
    assert np.sum(np.abs(rows[:, 0]) > 0.01) / rate_hz == pytest.approx(2.0, abs=0.3)


def test_headphones_that_have_gone_are_noticed_by_the_next_sentence_and_taken_up_again(
    sound_server: VirtualSound,
) -> None:
    headphones = Headphones(sound_server.headphones)
    unplug = threading.Timer(0.5, sound_server.unplug, [sound_server.headphones])
    unplug.start()
    # PulseAudio may move a stream that runs to another device and tell nobody; one that is opened it refuses.
    with suppress(DeviceProblem):
        headphones.play([tone(1.5)])
    unplug.join()
    try:
        with pytest.raises(DeviceProblem, match="headphones"):
            headphones.play([tone(0.2)])
    finally:
        sound_server.plug_in(sound_server.headphones)
    assert headphones.play([tone(0.2)]) == 1


def test_a_device_that_never_asks_for_sound_is_given_up(
    sound_server: VirtualSound, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("voicecoach.speak.headphones.BEAT_S", 0.2)
    headphones = Headphones(sound_server.headphones)

    def frozen(block: Samples, frames: int, when: Any, status: Any) -> None:
        block.fill(0)

    monkeypatch.setattr(headphones, "_asked", frozen)
    began = time.monotonic()
    with pytest.raises(DeviceProblem, match="have gone"):
        headphones.play([tone(1.0)])
    assert time.monotonic() - began < 120, "it never ends by itself"


def test_headphones_are_chosen_by_name_and_named(sound_server: VirtualSound) -> None:
    assert sound_server.headphones in names(HEADPHONES)
    headphones = Headphones("HEADPHO")
    headphones.find()
    assert headphones.name == sound_server.headphones
    with pytest.raises(DeviceProblem, match=f"kitchen radio.*{sound_server.headphones}"):
        Headphones("kitchen radio").play([tone(0.1)])


def test_headphones_that_refuse_their_own_rate_are_opened_at_another() -> None:
    class Library:
        """A sound library whose one device says 44.1 kHz and takes only 16 kHz: a hands-free link."""

        PortAudioError = OSError

        def query_devices(self, kind: str | None = None) -> Any:
            one = {"index": 0, "name": "ear", "max_output_channels": 1, "default_samplerate": 44_100.0}
            return one if kind else [one]

        def check_output_settings(self, samplerate: int, **others: Any) -> None:
            if samplerate != 16_000:
                raise OSError("Invalid sample rate")

    assert named(Library(), HEADPHONES, "ear").rate_hz == 16_000
    assert named(Library(), HEADPHONES, None).channels == 1


def test_without_portaudio_the_problem_names_the_package_and_files_still_work() -> None:
    program = """
import sys, tempfile, pathlib
sys.modules["sounddevice"] = None
class Missing:
    def find_spec(self, name, path=None, target=None):
        if name == "sounddevice":
            raise OSError("PortAudio library not found")
del sys.modules["sounddevice"]
sys.meta_path.insert(0, Missing())
from voicecoach.describe.values import Sentence
from voicecoach.errors import DeviceProblem
from voicecoach.speak.mouth import Mouth
with Mouth() as mouth, tempfile.TemporaryDirectory() as folder:
    try:
        mouth.say([Sentence(text="One.")])
    except DeviceProblem as problem:
        print(problem)
    file = pathlib.Path(folder) / "one.wav"
    mouth.save([Sentence(text="One.")], file)
    print(file.stat().st_size > 1000)
"""
    ran = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, timeout=1_200, check=True
    )
    assert "libportaudio2" in ran.stdout
    assert ran.stdout.endswith("True\n")


def test_a_silent_mouth_says_nothing_and_counts_all_as_said(voice: Voice) -> None:
    mouth = Mouth(voice=voice, silent=True)
    assert mouth.say(THREE) == len(THREE)
    assert not mouth.show([(0.0, 0.0)], ["jack"])
