"""A session killed at any moment keeps every note that it confirmed."""

import json
import random
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest

from voicecoach import journal

SPOKEN = (
    ("our first", "eighty", "two"),
    ("their first", "ninety", "five"),
    ("our second", "forty", "nine"),
    ("their second", "sixty", "eleven"),
    ("our third", "fifty", "seven"),
    ("their third", "thirty", "one"),
)
NOTES = [f"{bowl}, {gap} centimetres, {hour} o'clock" for bowl, gap, hour in SPOKEN]


def talk_and_kill(session: "subprocess.Popen[str]", moment: random.Random) -> list[dict[str, Any]]:
    """Tell a few notes, one more, and kill it at once; every line that it printed."""
    assert session.stdin is not None
    assert session.stdout is not None
    confirmed = []
    for note in NOTES[: moment.randint(1, len(NOTES))]:
        session.stdin.write(note + "\n")
        session.stdin.flush()
        confirmed.append(json.loads(session.stdout.readline()))
    session.stdin.write("their fourth, two metres, six o'clock\n")
    session.stdin.flush()
    time.sleep(moment.uniform(0, 0.03))
    session.send_signal(signal.SIGKILL)
    late, _ = session.communicate()
    confirmed += [json.loads(line) for line in late.splitlines() if line.endswith("}")]
    return confirmed


@pytest.mark.parametrize("seed", range(20))
def test_a_killed_session_keeps_every_note_it_confirmed(seed: int, tmp_path: Path) -> None:
    kept = tmp_path / "end.jsonl"
    command = [sys.executable, "-m", "voicecoach", "tell", "--json", "--journal", str(kept)]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as session:
        confirmed = talk_and_kill(session, random.Random(seed))

    entries, _ = journal.read(kept)
    assert [line["heard"] for line in confirmed] == [entry.heard.text for entry in entries][: len(confirmed)]
    assert [line["say"] for line in confirmed] == [
        [sentence.text for sentence in entry.say] for entry in entries[: len(confirmed)]
    ]
    assert all(line["outcome"] == "noted" for line in confirmed)
