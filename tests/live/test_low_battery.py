"""A low battery is told to the director once, in a pause. The battery is files as the kernel writes them."""

import queue
from pathlib import Path

import psutil
import pytest

from voicecoach.conversation import Conversation
from voicecoach.describe.values import Sentence
from voicecoach.live import loop
from voicecoach.live.inputs import Inputs
from voicecoach.live.loop import Live
from voicecoach.live.speaking import Speaking
from voicecoach.speak.mouth import Mouth

HANGS_S = 60.0


@pytest.fixture
def battery(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "BAT0"
    folder.mkdir()
    for name, text in {"energy_now": "19", "energy_full": "100", "status": "Discharging"}.items():
        (folder / name).write_text(f"{text}\n")
    monkeypatch.setattr(psutil._pslinux, "POWER_SUPPLY_PATH", str(tmp_path))
    monkeypatch.setattr(loop, "BATTERY_S", 0.0)
    return folder


def test_a_low_battery_is_told_once_and_never_over_a_sentence(battery: Path) -> None:
    inputs: Inputs = queue.Queue()
    told: list[str] = []
    turns = iter(range(1000))
    with Mouth(silent=True) as mouth, Conversation() as conversation:
        voice = Speaking(mouth, told.append, lambda: None)
        live = Live(conversation, inputs, (), voice, voice, lambda _: None, told.append, set_up=lambda: None)
        voice.say((Sentence(text="The head is being read."),))
        live.run(lambda: next(turns) >= 3)
        assert told == []
        voice.start()
        assert voice.finish(HANGS_S)
        live.run(lambda: next(turns) >= 10)
        assert told == ["The battery is down to nineteen per cent."]
        (battery / "energy_now").write_text("10\n")
        live.run(lambda: next(turns) >= 20)
        assert told[1:] == ["The battery is down to ten per cent."]
        voice.leave()
        voice.join(HANGS_S)
