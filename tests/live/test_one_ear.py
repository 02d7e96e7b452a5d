"""Bluetooth's bargain: with its microphone on, an earpiece gives narrow sound, the same to both ears.

There is no Bluetooth here. The sound server's devices have the form that an earpiece has with its microphone
on: one channel, 8,000 samples a second (Hands-Free Profile 1.8, CVSD; memory).
"""

import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.live.session import LiveSession
from tests.virtual_sound import VirtualSound, look_again_for_devices
from voicecoach import checks
from voicecoach.conversation import Conversation
from voicecoach.describe import one_ear
from voicecoach.hear.values import Heard
from voicecoach.live.watching import ServerDevice, _specified
from voicecoach.places import scenarios

NARROW = """
<{before}>
pcm.handsfree {{ type pulse server "{server}" device "handsfree" }}
pcm.mouthpiece {{ type pulse server "{server}" device "mouthpiece.monitor" }}
"""
NOTES = [scenarios() / "first_end" / name for name in ("02-ours.wav", "03-theirs.wav", "04-ours.wav")]
LATER = scenarios() / "first_end" / "06-theirs.wav"
REFUSED = one_ear()[0].text


def control(*words: str) -> str:
    return subprocess.run(["pactl", *words], capture_output=True, text=True, check=True).stdout.strip()


def speak(note: Path) -> None:
    """Play a recording into the narrow microphone."""
    subprocess.run(["paplay", "--device=mouthpiece", str(note)], check=True)


@pytest.fixture
def bluetooth(sound_server: VirtualSound, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """An earpiece with its microphone on: `handsfree` to listen to, `mouthpiece` to speak into."""
    made = [
        control(
            "load-module",
            "module-null-sink",
            f"sink_name={name}",
            "rate=8000",
            "channels=1",
            f"sink_properties=device.description={name.capitalize()}",
        )
        for name in ("handsfree", "mouthpiece")
    ]
    config = tmp_path / "alsa.conf"
    config.write_text(
        NARROW.format(before=sound_server.environment["ALSA_CONFIG_PATH"], server=sound_server.server)
    )
    monkeypatch.setenv("ALSA_CONFIG_PATH", str(config))
    look_again_for_devices()
    yield
    for module in made:
        control("unload-module", module)
    monkeypatch.undo()
    look_again_for_devices()


@pytest.mark.usefixtures("bluetooth")
def test_stereo_is_not_offered_by_an_earpiece_with_its_microphone_on_and_that_is_told_once(
    sound_server: VirtualSound, tmp_path: Path
) -> None:
    with LiveSession(sound_server, tmp_path / "live.jsonl", "--headphones", "handsfree") as session:
        session.wait_for("Handsfree gives narrow sound, the same to both ears")
        session.type("eighty centimetres two o'clock")
        session.type("in stereo")
        session.wait_for(REFUSED)
        session.type("read the head")
        session.wait_for("Answered. ")
    assert sum("gives narrow sound" in line for line in session.printed) == 1


def test_headphones_with_two_channels_offer_it(sound_server: VirtualSound, tmp_path: Path) -> None:
    with LiveSession(sound_server, tmp_path / "live.jsonl") as session:
        session.type("in stereo")
        session.wait_for("Each bowl from where it lies.")
    assert not any("narrow sound" in line or REFUSED in line for line in session.printed)


@pytest.mark.usefixtures("bluetooth")
def test_the_narrow_microphone_is_measured_and_told_once(sound_server: VirtualSound, tmp_path: Path) -> None:
    options = ("--microphone", "mouthpiece")
    with LiveSession(sound_server, tmp_path / "live.jsonl", *options) as session:
        for note in NOTES:
            speak(note)
            session.wait_for("Heard: ")
        session.wait_for("The microphone sends telephone sound.")
        speak(LATER)
        session.wait_for("Heard: ")
    assert sum("sends telephone sound." in line for line in session.printed) == 1


@pytest.mark.usefixtures("bluetooth")
def test_the_check_explains_the_choice() -> None:
    assert checks.BARGAIN in checks._headphones("handsfree")
    assert checks.BARGAIN in checks._microphone("mouthpiece")


def test_the_check_says_nothing_of_it_where_both_ears_have_their_own_sound(
    sound_server: VirtualSound,
) -> None:
    assert checks.BARGAIN not in checks._headphones(sound_server.headphones)
    assert checks.BARGAIN not in checks._microphone(sound_server.microphone)


def test_the_sound_picture_is_refused_too_and_changes_nothing() -> None:
    with Conversation() as conversation:
        conversation.stereo = lambda: False
        conversation.hear(Heard(text="our first, eighty centimetres, two o'clock"))
        refused = conversation.hear(Heard(text="sound picture"))
        assert refused.outcome == "refused"
        assert refused.say == one_ear()
        conversation.stereo = lambda: True
        assert conversation.hear(Heard(text="sound picture")).outcome == "answered"


@pytest.mark.parametrize(
    ("written", "channels", "rate_hz"),
    [("s16le 1ch 8000Hz", 1, 8000), ("float32le 2ch 48000Hz", 2, 48_000), ("", 2, 48_000)],
)
def test_what_the_server_writes_of_a_device_is_read(written: str, channels: int, rate_hz: int) -> None:
    assert _specified({"sample_specification": written}) == (channels, rate_hz)
    assert ServerDevice("a", "A", channels, rate_hz).is_one_ear == (channels == 1)
