"""WAV files: whole or not at all, for their owner alone."""

import stat
import wave
from pathlib import Path

import numpy as np
import pytest
import soundfile

from voicecoach.describe.values import Sentence
from voicecoach.errors import Problem
from voicecoach.speak.files import write_wav
from voicecoach.speak.mouth import Mouth
from voicecoach.speak.values import Sound, StereoSound

BEEP = Sound(samples=np.linspace(-0.5, 0.5, 4_410, dtype=np.float32), rate_hz=22_050)


def test_a_file_is_sixteen_bit_and_holds_the_sound(tmp_path: Path) -> None:
    file = tmp_path / "beep.wav"
    write_wav(BEEP, file)
    with wave.open(str(file)) as opened:
        assert (opened.getsampwidth(), opened.getnchannels(), opened.getframerate()) == (2, 1, 22_050)
    samples, _ = soundfile.read(file, dtype="float32")
    assert samples == pytest.approx(BEEP.samples, abs=1e-4)


def test_a_file_is_for_its_owner_alone(tmp_path: Path) -> None:
    write_wav(BEEP, tmp_path / "beep.wav")
    assert stat.S_IMODE((tmp_path / "beep.wav").stat().st_mode) == 0o600


def test_a_file_that_was_there_is_replaced(tmp_path: Path) -> None:
    file = tmp_path / "beep.wav"
    file.write_text("something else")
    write_wav(StereoSound(samples=np.zeros((100, 2), np.float32), rate_hz=48_000), file)
    assert soundfile.info(file).channels == 2


def test_a_write_that_fails_leaves_the_old_file_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "beep.wav"
    file.write_text("the old one")

    def full(*about: object, **more: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(soundfile, "write", full)
    with pytest.raises(Problem, match=r"beep\.wav can't be written: the disk is full\. Make room"):
        write_wav(BEEP, file)
    assert [each.name for each in tmp_path.iterdir()] == ["beep.wav"]
    assert file.read_text() == "the old one"


def test_a_folder_that_is_not_there_is_named(tmp_path: Path) -> None:
    with pytest.raises(Problem, match=r"nowhere") as told:
        write_wav(BEEP, tmp_path / "nowhere" / "beep.wav")
    assert ".part" not in str(told.value)
    assert "its folder is not there" in str(told.value)


@pytest.mark.parametrize("placed", [False, True])
def test_sentences_are_saved_as_they_are_rendered(placed: bool, tmp_path: Path) -> None:
    file = tmp_path / "said.wav"
    sentences = [Sentence(text="We hold one shot.", pause_s=0.5), Sentence(text="The jack.", pause_s=9.0)]
    with Mouth(silent=True, placed=placed) as mouth:
        mouth.save(sentences, file)
        rendered = mouth.render(sentences)
    samples, rate_hz = soundfile.read(file, dtype="float32")
    assert samples.shape == rendered.samples.shape
    assert rate_hz == rendered.rate_hz


def test_nothing_to_say_is_a_file_with_no_sound(tmp_path: Path) -> None:
    with Mouth(silent=True) as mouth:
        mouth.save([], tmp_path / "nothing.wav")
    assert soundfile.info(tmp_path / "nothing.wav").frames == 0
