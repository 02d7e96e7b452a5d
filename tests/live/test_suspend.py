"""A computer that sleeps in the middle of it: the program stands still and goes on."""

import signal
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from tests.live.session import LiveSession
from tests.live.test_interrupting import loud_until_s, told
from tests.virtual_sound import VirtualSound
from voicecoach.live.asleep import heard_nothing
from voicecoach.places import scenarios

FOLDER = scenarios() / "first_end"
SLEPT = "nothing was heard for"


@contextmanager
def asleep(session: LiveSession, seconds: float) -> Iterator[None]:
    """The program stands still while the block runs, and for so long after it."""
    session.process.send_signal(signal.SIGSTOP)
    try:
        yield
        time.sleep(seconds)
    finally:
        session.process.send_signal(signal.SIGCONT)


def test_a_note_cut_in_two_by_sleep_is_not_filed_and_the_next_is_heard(
    sound_server: VirtualSound, tmp_path: Path
) -> None:
    with LiveSession(sound_server, tmp_path / "live.jsonl") as session:
        session.type("stop")
        session.wait_for("Noted.")
        note = threading.Thread(target=sound_server.play_into_microphone, args=(FOLDER / "03-theirs.wav",))
        note.start()
        time.sleep(1.5)  # in the middle of "their first, eighty centimetres, two o'clock"
        with asleep(session, 1):
            note.join()
        session.wait_for(SLEPT)
        session.wait_for("Listening on microphone.")
        sound_server.play_into_microphone(FOLDER / "13-question.wav")
        session.wait_for("Heard: who holds")
        printed = "\n".join(session.printed)
    assert printed.count(SLEPT) == 1
    assert "two o'clock" not in printed, "what was said while it slept is not heard afterwards"
    assert "has gone" not in printed
    assert "Try again." not in printed, "no device is away"


def test_a_question_lapses_in_sleep_and_a_microphone_that_went_meanwhile_is_taken_up(
    sound_server: VirtualSound, tmp_path: Path
) -> None:
    with LiveSession(sound_server, tmp_path / "live.jsonl") as session:
        session.type("ours, seventy centimetres")
        session.wait_for("Asked.")
        with asleep(session, 8.5):
            sound_server.unplug(sound_server.microphone)
        session.wait_for("No answer: nothing filed.")
        sound_server.plug_in(sound_server.microphone)
        session.wait_for("Listening on microphone.")
        time.sleep(1)
        sound_server.play_into_microphone(FOLDER / "13-question.wav")
        session.wait_for("Heard: who holds")
        assert sum(SLEPT in line for line in session.printed) == 1


def test_the_voice_goes_on_with_the_head_after_sleep(sound_server: VirtualSound, tmp_path: Path) -> None:
    with LiveSession(sound_server, tmp_path / "live.jsonl") as session:
        told(session)
        session.type("read the head")
        session.wait_for("Answered. ")
        time.sleep(2)
        with asleep(session, 4):
            pass
        session.wait_for(SLEPT)
        with sound_server.record_headphones() as recording:
            time.sleep(6)
    assert loud_until_s(recording.wav) > 3


def test_how_long_it_slept_is_said_in_words() -> None:
    lengths = {
        2.4: "two seconds",
        75: "seventy five seconds",
        119: "two minutes",
        5_000: "eighty three minutes",
    }
    lengths |= {9_000: "two hours", 200_000: "fifty six hours"}
    for seconds, words in lengths.items():
        assert f"for {words}. Say again" in heard_nothing(seconds)
