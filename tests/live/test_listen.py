"""`voicecoach listen` on real streams: speech into a virtual microphone, answers from virtual headphones."""

import time
from pathlib import Path

import soundfile

from tests.live.listening_in import Ears
from tests.live.session import LiveSession
from tests.virtual_sound import VirtualSound
from voicecoach import journal
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.recordings import blocks
from voicecoach.places import scenarios

FOLDER = scenarios() / "first_end"


def recognised(recogniser: Recogniser, wav: Path) -> str:
    return " / ".join(heard.text for heard in Ear(recogniser).listen(blocks(wav), "headphones"))


def test_a_note_spoken_into_the_microphone_is_filed_and_confirmed_in_the_headphones(
    sound_server: VirtualSound, recogniser: Recogniser, tmp_path: Path
) -> None:
    kept = tmp_path / "live.jsonl"
    with LiveSession(sound_server, kept) as session:
        session.type("stop")
        session.wait_for("Heard: stop")
        with sound_server.record_headphones() as recording:
            sound_server.play_into_microphone(FOLDER / "03-theirs.wav")
            session.wait_for("Noted. Their first: eighty centimetres, two o'clock.")
            Ears(recording).wait_until_over(0, 1.0)
    assert [entry.outcome for entry in journal.read(kept)[0]] == ["noted", "noted"]
    assert "their first eighty centimetres two o'clock" in recognised(recogniser, recording.wav)


def test_a_whole_end_spoken_live_is_read_back_and_recognised(
    sound_server: VirtualSound, recogniser: Recogniser, tmp_path: Path
) -> None:
    kept = tmp_path / "live.jsonl"
    recordings = sorted(FOLDER.glob("*.wav"))
    with LiveSession(sound_server, kept) as session:
        for recording in recordings[:-1]:
            sound_server.play_into_microphone(recording)
            session.wait_for("Heard: ")
        time.sleep(4)
        with sound_server.record_headphones() as head:
            sound_server.play_into_microphone(recordings[-1])
            session.wait_for("Heard: read the head")
            spoken = session.wait_for("Answered. ").text
            Ears(head).wait_until_over(0, 1.0)
    heard = recognised(recogniser, head.wav)
    names = [f"{side} {nth}" for side in ("our", "their") for nth in ("first", "second", "third", "fourth")]
    assert all(name in spoken.lower() for name in names)
    assert sum(name in heard for name in names) >= 0.9 * len(names), heard
    outcomes = [entry.outcome for entry in journal.read(kept)[0]]
    assert outcomes.count("dropped") == 1
    assert outcomes.count("noted") == 11
    assert outcomes.count("answered") == 2


def test_the_microphone_hears_nothing_in_silence(sound_server: VirtualSound, tmp_path: Path) -> None:
    kept, quiet = tmp_path / "live.jsonl", tmp_path / "quiet.wav"
    soundfile.write(quiet, [0.0] * 48_000, 16_000)
    with LiveSession(sound_server, kept):
        sound_server.play_into_microphone(quiet)
        time.sleep(1)
    assert journal.read(kept)[0] == ()
