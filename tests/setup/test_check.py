"""`voicecoach check` tries every part, says what to do, and its exit status says what can run."""

import os
import subprocess
import sys
import wave
from pathlib import Path

import numpy as np
import pytest

from tests.virtual_sound import VirtualSound
from voicecoach import checks
from voicecoach.errors import DeviceProblem, Problem

Samples = np.ndarray[tuple[int, ...], np.dtype[np.float32]]

PARTS = ["Speech model", "Voice", "Spoken round trip", "Microphone", "Headphones"]


def _check(*options: str, cwd: Path | None = None, **environment: str) -> "subprocess.CompletedProcess[str]":
    return subprocess.run(
        [sys.executable, "-m", "voicecoach", "check", *options],
        cwd=cwd,
        env={**os.environ, **environment},
        capture_output=True,
        text=True,
        check=False,
        timeout=1_200,
    )


@pytest.mark.usefixtures("model_path")
def test_where_everything_is_there_every_part_works(sound_server: VirtualSound) -> None:
    devices = ("--microphone", sound_server.microphone, "--headphones", sound_server.headphones)
    with sound_server.record_headphones() as recording:
        checked = _check(*devices)
    lines = checked.stdout.splitlines()
    assert [line.split(":")[0] for line in lines[:5]] == PARTS, checked.stdout + checked.stderr
    assert all(": works. " in line for line in lines[:5]), checked.stdout
    assert lines[5].startswith("Microphones: microphone")
    assert lines[6].startswith("Headphones and loudspeakers: ")
    assert sound_server.headphones in lines[6]
    assert lines[-1] == "Everything works. You can run voicecoach listen."
    assert checked.returncode == 0
    with wave.open(str(recording.wav)) as file:
        played = np.frombuffer(file.readframes(file.getnframes()), "<i2")
    assert np.abs(played).max() > 1000


@pytest.mark.usefixtures("model_path")
def test_without_portaudio_the_package_is_named_and_the_rest_works(tmp_path: Path) -> None:
    # What sounddevice itself raises at import where the library is missing.
    (tmp_path / "sounddevice.py").write_text("raise OSError('PortAudio library not found')\n")
    checked = _check(PYTHONPATH=str(tmp_path))
    assert checked.returncode == 3
    lines = {line.split(":")[0]: line for line in checked.stdout.splitlines()}
    assert all(": works. " in lines[part] for part in PARTS[:3])
    assert all("apt-get install libportaudio2" in lines[part] for part in PARTS[3:])
    assert "Traceback" not in checked.stderr


@pytest.mark.usefixtures("sound_server")
def test_a_microphone_that_is_not_there_is_named_with_those_that_are() -> None:
    with pytest.raises(DeviceProblem, match=r"no microphone called the blue one\. There are: microphone"):
        checks._microphone("the blue one")


def test_without_the_model_every_way_to_get_it_is_listed(installed: Path, tmp_path: Path) -> None:
    checked = _check(cwd=tmp_path, PYTHONPATH=str(installed), XDG_DATA_HOME=str(tmp_path / "data"))
    assert checked.returncode == 4
    assert "Speech model: does not work." in checked.stdout
    assert "voicecoach setup --model" in checked.stdout
    assert "Only typed notes can be taken" in checked.stdout


def _noise(decibels: float) -> Samples:
    noise = np.random.default_rng(3).standard_normal(16_000)
    return np.asarray(noise / noise.std() * 10 ** (decibels / 20), np.float32)


@pytest.mark.parametrize(
    ("samples", "advice"),
    [
        (np.zeros(16_000, np.float32), "unmute"),
        (_noise(-90), "unmute"),
        (_noise(-70), "faint"),
        (_noise(-30), "-30 decibels."),
        (np.clip(_noise(3), -1, 1), "turn it down"),
    ],
    ids=["nothing", "a dead line", "faint", "right", "clipped"],
)
def test_the_level_comes_with_what_to_do_about_it(samples: Samples, advice: str) -> None:
    assert advice in checks.level(samples)


@pytest.mark.usefixtures("model_path")
def test_a_voice_that_is_not_understood_is_a_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(checks, "NOTE", "lovely weather today")
    with pytest.raises(Problem, match="The voice said: lovely weather today"):
        checks._round_trip()
