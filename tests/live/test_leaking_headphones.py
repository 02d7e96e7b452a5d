"""Headphones that the microphone hears: the voice's own words are never taken for a note."""

import time
from pathlib import Path

import numpy as np

from tests.live.session import LiveSession
from tests.virtual_sound import RATE_HZ, VirtualSound
from voicecoach import journal
from voicecoach.live.loop import LEAKS

NOTES = (
    "our first, a metre, two o'clock",
    "their first, eighty centimetres, five o'clock",
    "our second, two metres, nine o'clock",
    "their second, half a metre, twelve o'clock",
)
FRAME = 4
"""Bytes: two channels of 16 bits."""


def wait_until_silent(raw: Path, for_s: float, within_s: float) -> None:
    """Wait until the headphones have been silent for so long; `raw` grows while they are recorded."""
    deadline = time.monotonic() + within_s
    length = round(for_s * RATE_HZ) * FRAME
    while time.monotonic() < deadline:
        time.sleep(0.2)
        size = raw.stat().st_size // FRAME * FRAME
        tail = np.fromfile(raw, dtype="<i2", offset=max(0, size - length))
        if size >= length and not np.abs(tail).max(initial=0) > 0.01 * 32_768:
            return
    raise AssertionError("the headphones never fell silent")


def test_the_voice_in_the_microphone_files_nothing_and_it_is_said_that_it_leaks(
    sound_server: VirtualSound, tmp_path: Path
) -> None:
    kept = tmp_path / "live.jsonl"
    with sound_server.record_headphones() as recording, sound_server.leaking_headphones():
        raw = recording.wav.with_suffix(".raw")
        with LiveSession(sound_server, kept) as session:
            for note in NOTES:
                session.type(note)
                session.wait_for("Noted. ", within_s=30)
                wait_until_silent(raw, 1.5, 60)
            for question in ("where is our first", "read the head"):
                session.type(question)
                session.wait_for("Answered. ", within_s=30)
                wait_until_silent(raw, 2.5, 120)
            printed = session.printed
    entries, _ = journal.read(kept)
    assert LEAKS in printed
    assert printed.count(LEAKS) == 1
    noted = [(entry.heard.source, entry.heard.text) for entry in entries if entry.outcome == "noted"]
    assert noted == [("typed", note) for note in NOTES], printed
