"""How a turn is printed, and what is printed where nothing can be spoken."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from voicecoach.commands.showing import show
from voicecoach.commands.turns import one_turn
from voicecoach.conversation import Conversation
from voicecoach.hear.values import Heard
from voicecoach.session.values import Entry


def printed(entry: Entry, conversation: Conversation, capsys: pytest.CaptureFixture[str]) -> list[str]:
    show(entry, conversation.picture(), json=False)
    return capsys.readouterr().out.splitlines()


def test_a_note_is_printed_as_what_was_heard_and_what_came_of_it(capsys: pytest.CaptureFixture[str]) -> None:
    with Conversation() as conversation:
        entry = conversation.hear(Heard(text="our first, a metre, two o'clock"))
        assert printed(entry, conversation, capsys) == [
            "Heard: our first, a metre, two o'clock",
            "Noted. Our first: one metre, two o'clock.",
        ]


def test_a_word_that_the_ear_spells_in_its_own_way_is_printed_as_people_write_it(
    capsys: pytest.CaptureFixture[str],
) -> None:
    with Conversation() as conversation:
        entry = conversation.hear(Heard(text="our third ten centimetres twelve o'clock a touch her"))
        assert printed(entry, conversation, capsys) == [
            "Heard: our third ten centimetres twelve o'clock a toucher",
            "Noted. Our third: ten centimetres, twelve o'clock, a toucher.",
        ]


def test_what_nobody_said_has_no_line_of_what_was_heard(capsys: pytest.CaptureFixture[str]) -> None:
    with Conversation() as conversation:
        asked = conversation.hear(Heard(text="a metre"), now_s=0.0)
        assert asked.open is not None
        lapsed = conversation.lapse(now_s=60.0)
        assert lapsed is not None
        lines = printed(lapsed, conversation, capsys)
    assert len(lines) == 1
    assert not lines[0].startswith("Heard")
    assert list(one_turn(lapsed))[1] == "  Heard: nothing; nobody had to speak for this"


def test_without_headphones_it_is_said_once_that_the_words_are_printed(tmp_path: Path) -> None:
    with Conversation(tmp_path / "kept.jsonl") as conversation:
        conversation.hear(Heard(text="our first, a metre, two o'clock"))
    unserved = tmp_path / "alsa.conf"
    unserved.write_text("</usr/share/alsa/alsa.conf>\n")
    silent = {**os.environ, "ALSA_CONFIG_PATH": str(unserved), "PULSE_SERVER": f"unix:{tmp_path}/none"}
    done = subprocess.run(
        [sys.executable, "-m", "voicecoach", "replay", str(tmp_path / "kept.jsonl")],
        env=silent, capture_output=True, text=True, check=False, timeout=1_200,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert "one metre, two o'clock" in done.stdout
    told = done.stderr  # nothing on a machine with a sound card of its own
    assert told.count("printed") == told.count("There are no headphones"), told
