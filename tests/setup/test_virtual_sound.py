"""The virtual microphone and headphones that other tests stand on."""

import queue
import wave
from pathlib import Path

import numpy as np
import pytest

from tests.virtual_sound import NoSoundServer, VirtualSound

RATE_HZ = 16_000


def _tone(path: Path, seconds: float = 0.6) -> Path:
    samples = 0.5 * np.sin(2 * np.pi * 440 * np.arange(int(seconds * RATE_HZ)) / RATE_HZ)
    with wave.open(str(path), "wb") as file:
        file.setparams((1, 2, RATE_HZ, 0, "NONE", "not compressed"))
        file.writeframes((samples * 32767).astype("<i2").tobytes())
    return path


def test_what_is_played_into_the_microphone_is_captured_by_portaudio(
    sound_server: VirtualSound, tmp_path: Path
) -> None:
    import sounddevice  # noqa: PLC0415 - only once the server's devices can be seen

    blocks: queue.Queue[np.ndarray[tuple[int, ...], np.dtype[np.float32]]] = queue.Queue()
    with sounddevice.InputStream(
        device=sound_server.microphone,
        samplerate=RATE_HZ,
        channels=1,
        callback=lambda block, *_: blocks.put(block[:, 0].copy()),
    ):
        loudest = float(np.abs(blocks.get(timeout=120)).max())
        assert loudest < 0.01
        sound_server.play_into_microphone(_tone(tmp_path / "tone.wav"))
        while loudest < 0.3:
            loudest = float(np.abs(blocks.get(timeout=120)).max())


def test_what_portaudio_plays_arrives_in_the_headphones(sound_server: VirtualSound) -> None:
    import sounddevice  # noqa: PLC0415 - only once the server's devices can be seen

    tone = (0.5 * np.sin(2 * np.pi * 440 * np.arange(RATE_HZ) / RATE_HZ)).astype("float32")
    with sound_server.record_headphones() as recording:
        sounddevice.play(tone, RATE_HZ, device=sound_server.headphones, blocking=True)
    with wave.open(str(recording.wav)) as file:
        samples = np.frombuffer(file.readframes(file.getnframes()), "<i2")
        loud_s = np.count_nonzero(np.abs(samples) > 1000) / 2 / file.getframerate()
    assert loud_s > 0.8


def test_a_server_that_cannot_start_says_why(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    with pytest.raises(NoSoundServer, match="apt-get install pulseaudio"):
        VirtualSound(tmp_path).start()
