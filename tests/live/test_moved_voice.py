"""The sound server takes the voice elsewhere in the middle of a sentence: never silently."""

import subprocess
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.live.session import LiveSession
from tests.live.test_interrupting import told
from tests.virtual_sound import VirtualSound

ANYWHERE = """
<{before}>
pcm.anywhere {{ type pulse server "{server}" }}
"""
"""Headphones that are wherever the sound server puts them, as the usual default device is."""


def control(*words: str) -> str:
    return subprocess.run(["pactl", *words], capture_output=True, text=True, check=True).stdout.strip()


@pytest.fixture
def porch(sound_server: VirtualSound) -> Iterator[str]:
    """Loudspeakers on a porch, which nobody chose."""
    named = ("sink_name=porch", "sink_properties=device.description=Porch")
    module = control("load-module", "module-null-sink", *named)
    yield "porch"
    control("unload-module", module)


@pytest.fixture
def anywhere(sound_server: VirtualSound, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    config = tmp_path / "alsa.conf"
    before = sound_server.environment["ALSA_CONFIG_PATH"]
    config.write_text(ANYWHERE.format(before=before, server=sound_server.server))
    monkeypatch.setenv("ALSA_CONFIG_PATH", str(config))
    return "anywhere"


def test_what_takes_the_place_of_headphones_that_went_in_the_middle_of_a_sentence_is_named(
    sound_server: VirtualSound, tmp_path: Path, anywhere: str, porch: str
) -> None:
    control("set-default-sink", "headphones")
    with LiveSession(sound_server, tmp_path / "live.jsonl", "--headphones", anywhere) as session:
        told(session)
        session.type("read the head")
        session.wait_for("Answered. ")
        time.sleep(3)
        control("set-default-sink", porch)
        sound_server.unplug(sound_server.headphones)
        try:
            session.wait_for("The voice now comes out of Porch.")
            time.sleep(2)
            assert loud(f"{porch}.monitor", 4), "and the head is read on"
        finally:
            sound_server.plug_in(sound_server.headphones)


def loud(source: str, seconds: float) -> bool:
    """True when something is heard there."""
    order = ["timeout", str(seconds), "parec", f"--device={source}", "--format=s16le", "--channels=1"]
    return bool(subprocess.run(order, capture_output=True, check=False).stdout.strip(b"\0"))


def test_a_voice_that_is_moved_in_the_middle_of_a_sentence_names_where_it_comes_out(
    sound_server: VirtualSound, tmp_path: Path, porch: str
) -> None:
    options = ("--player-headphones", sound_server.earpiece)
    with LiveSession(sound_server, tmp_path / "live.jsonl", *options) as session:
        told(session)
        session.type("read the head")
        session.wait_for("Answered. ")
        time.sleep(3)
        assert not [line for line in session.printed if "now comes out" in line], "two voices, two pairs"
        stream = control("list", "short", "sink-inputs").split()[0]
        control("move-sink-input", stream, porch)
        session.wait_for("The voice now comes out of Porch.")
        session.wait_for("The voice now comes out of ")
        time.sleep(5)
        assert sum("now comes out" in line for line in session.printed) == 2, (
            "back where it belongs, named once"
        )
