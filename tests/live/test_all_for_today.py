"""The day is ended by a sentence: the journal is closed, the coach's stick has a copy, the program ends."""

from pathlib import Path

from tests.live.session import HANGS_S, LiveSession
from tests.virtual_sound import VirtualSound
from voicecoach import journal

ONE, END = "our first, a metre, two o'clock", "that's all for today"


def ended(sound: VirtualSound, tmp_path: Path, stick: Path) -> list[str]:
    profile = tmp_path / "profile.yaml"
    profile.write_text(f"coach_folder: {stick}\n")
    session = LiveSession(sound, tmp_path / "2026-06-01.jsonl", "--profile", str(profile))
    try:
        session.wait_for("Listening on")
        session.type(ONE)
        session.wait_for("Noted. Our first")
        session.type(END)
        assert session.process.wait(HANGS_S) == 0
    finally:
        session.end()
    assert [each.heard.text for each in journal.read(tmp_path / "2026-06-01.jsonl")[0]][-2:] == [ONE, END]
    return session.printed[session.printed.index("Noted. That's all for today.") + 1 :]


def test_the_game_is_handed_over_where_the_stick_is_there_and_else_that_is_said(
    sound_server: VirtualSound, tmp_path: Path
) -> None:
    stick = tmp_path / "stick"
    closed = f"The journal is closed: {tmp_path / '2026-06-01.jsonl'}"
    said = ended(sound_server, tmp_path, stick)
    assert said == [
        closed,
        f"The coach's folder is not there: nothing was copied. The profile names {stick}.",
    ]
    stick.mkdir()
    copy, page = stick / "2026-06-01.jsonl", stick / "2026-06-01.html"
    said = ended(sound_server, tmp_path, stick)
    assert said == [
        closed,
        f"The journal and the page are in the coach's folder, and were checked. {copy} {page}",
    ]
    assert copy.read_bytes() == (tmp_path / "2026-06-01.jsonl").read_bytes()
    assert page.stat().st_size
