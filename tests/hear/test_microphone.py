"""A microphone as a stream: what is played into it arrives, and it notices when the device is gone."""

import subprocess
import sys
import threading
from itertools import islice
from pathlib import Path

import numpy as np
import pytest
import soundfile

from tests.hear.spoken import padded, words_of
from tests.virtual_sound import VirtualSound
from voicecoach.errors import DeviceProblem
from voicecoach.hear.blocks import BLOCK
from voicecoach.hear.ear import Ear
from voicecoach.hear.microphone import Microphone
from voicecoach.hear.recogniser import Recogniser


def test_a_spoken_note_arrives_through_the_microphone(
    sound_server: VirtualSound, recogniser: Recogniser, second_bowl: Path, tmp_path: Path
) -> None:
    wav = tmp_path / "note.wav"
    soundfile.write(wav, padded(second_bowl), 16_000)
    ear, heard = Ear(recogniser), []
    playing = threading.Thread(target=sound_server.play_into_microphone, args=(wav,))
    with Microphone(sound_server.microphone) as microphone:
        for count, block in enumerate(microphone):
            if count == 0:
                playing.start()
            heard += list(ear.hear_block(block, microphone.name))
            if heard or block.at_s > 120:
                break
    playing.join()
    assert [one.text for one in heard] == [words_of(second_bowl)]
    assert heard[0].source == sound_server.microphone


def test_the_audio_clock_goes_as_fast_as_the_sound(sound_server: VirtualSound) -> None:
    with Microphone(sound_server.microphone) as microphone:
        blocks = list(islice(microphone, 20))
    sizes = np.cumsum([0] + [block.samples.size for block in blocks])[:-1] / 16_000
    assert [block.at_s for block in blocks] == pytest.approx(sizes.tolist(), abs=1e-6)
    assert {block.samples.size for block in blocks} == {2 * BLOCK}, (
        "few wake-ups: two of the detector's blocks"
    )


LISTENS_UNTIL_IT_DIES = """
import sys
from voicecoach.errors import DeviceProblem
from voicecoach.hear.microphone import Microphone
try:
    with Microphone(sys.argv[1]) as microphone:
        for block in microphone:
            if block.at_s == 0:
                print("listening", flush=True)
except DeviceProblem as problem:
    print(problem, flush=True)
"""
"""In a process of its own: letting a dead device go can hang the sound library for good."""


def test_a_microphone_whose_sound_server_dies_is_noticed(sound_server: VirtualSound) -> None:
    order = [sys.executable, "-c", LISTENS_UNTIL_IT_DIES, sound_server.microphone]
    with subprocess.Popen(order, stdout=subprocess.PIPE, text=True) as listening:
        try:
            assert listening.stdout is not None
            assert listening.stdout.readline() == "listening\n"
            sound_server.stop()
            assert "microphone has gone" in listening.stdout.readline()
        finally:
            listening.kill()
            sound_server.start()


def test_a_microphone_that_is_not_there_is_named_with_those_that_are(sound_server: VirtualSound) -> None:
    with (
        pytest.raises(DeviceProblem, match=rf"no microphone called nonesuch.*{sound_server.microphone}"),
        Microphone("nonesuch"),
    ):
        pass


def test_without_portaudio_the_package_to_install_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    def missing(name: str) -> None:
        raise OSError("PortAudio library not found")

    monkeypatch.setattr("voicecoach.sound.devices.importlib.import_module", missing)
    with pytest.raises(DeviceProblem, match="libportaudio2"), Microphone():
        pass


def test_hearing_recordings_loads_no_sound_library(second_bowl: Path) -> None:
    order = (
        "import sys; from voicecoach.hear import ear, recordings; "
        f"list(recordings.blocks({str(second_bowl)!r})); sys.exit('sounddevice' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", order], check=False).returncode == 0
