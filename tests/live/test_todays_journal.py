"""Today's journal, which nobody named: it is gone on with after a kill, and another is begun by saying so."""

import signal
from collections.abc import Mapping
from pathlib import Path

import pytest

from tests.games.speaking import keep, spoken
from tests.live.session import LiveSession
from tests.virtual_sound import VirtualSound
from voicecoach import journal
from voicecoach.conversation import Conversation
from voicecoach.hear.ear import Ear
from voicecoach.hear.recogniser import Recogniser
from voicecoach.hear.recordings import blocks
from voicecoach.hear.values import Heard
from voicecoach.understand.notes.settings import AnotherGame

ONE, TWO = "our first, a metre, two o'clock", "their first, eighty centimetres, five o'clock"
RESUMED = [
    "Going on with the game.",
    "End one.",
    "Score: ours nought, theirs nought.",
    "We hold one shot.",
    "Next: their first.",
    "For a new game say: another game.",
]


@pytest.fixture
def home(tmp_path: Path) -> Mapping[str, str]:
    """Folders for a user's data and configuration that nobody has used yet."""
    folders = {"XDG_DATA_HOME": tmp_path / "data", "XDG_CONFIG_HOME": tmp_path / "config"}
    folders["VOICECOACH_CONFIG"] = tmp_path / "config" / "voicecoach"
    return {name: str(path) for name, path in folders.items()}


def journals(home: Mapping[str, str]) -> list[list[str]]:
    """What was typed or said in each journal, the oldest first; `2026-05-30-2` comes after `2026-05-30`."""
    folder = Path(home["XDG_DATA_HOME"]) / "voicecoach" / "journals"
    paths = sorted(folder.glob("*.jsonl"), key=lambda path: path.stem)
    return [[entry.heard.text for entry in journal.read(path)[0]] for path in paths]


def typed(session: LiveSession, note: str, comes_to: str) -> str:
    session.type(note)
    session.wait_for(f"Heard: {note}")
    return session.wait_for(comes_to).text


def test_after_a_kill_the_game_goes_on_and_says_where_it_is(
    sound_server: VirtualSound, home: Mapping[str, str]
) -> None:
    killed = LiveSession(sound_server, None, environment=home)
    killed.wait_for("Listening on")
    typed(killed, ONE, "Noted. Our first")
    assert RESUMED[0] not in killed.printed
    killed.process.send_signal(signal.SIGKILL)
    assert killed.end() == -signal.SIGKILL

    with LiveSession(sound_server, None, environment=home) as session:
        resumed = session.printed[session.printed.index(RESUMED[0]) :]
        assert resumed[: len(RESUMED)] == RESUMED
        typed(session, TWO, "Noted. Their first")
        assert "A game is under way." in typed(session, "another game", "Refused. ")
    assert journals(home) == [[ONE, TWO, "another game"]]


def test_another_game_begins_another_journal_with_which_the_next_start_goes_on(
    sound_server: VirtualSound, home: Mapping[str, str]
) -> None:
    with LiveSession(sound_server, None, environment=home) as session:
        typed(session, ONE, "Noted. Our first")
    with LiveSession(sound_server, None, environment=home) as session:
        assert RESUMED[0] in session.printed
        typed(session, "another game", "Noted. Another game.")
        typed(session, "where is our first", "Answered. ")
        typed(session, TWO, "Noted. Their first")
    assert journals(home) == [[ONE], ["another game", "where is our first", TWO]]
    with LiveSession(sound_server, None, environment=home) as session:
        assert {RESUMED[0], "They hold one shot.", "Next: our first."} <= {*session.printed}
        typed(session, "where is their first", "Answered. Their first")
    assert journals(home)[1][2:] == [TWO, "where is their first"]


def test_another_game_said_before_anything_else_is_no_refusal(
    sound_server: VirtualSound, home: Mapping[str, str]
) -> None:
    with LiveSession(sound_server, None, environment=home) as session:
        typed(session, "another game", "Noted. Another game.")
        typed(session, ONE, "Noted. Our first")
    assert journals(home) == [["another game", ONE]]


def test_with_a_journal_that_was_named_no_other_is_begun(
    sound_server: VirtualSound, tmp_path: Path, home: Mapping[str, str]
) -> None:
    kept = tmp_path / "live.jsonl"
    with LiveSession(sound_server, kept, environment=home) as session:
        typed(session, "another game", "Refused. ")
    assert journals(home) == []
    assert [entry.outcome for entry in journal.read(kept)[0]] == ["refused"]


def test_another_game_said_aloud_begins_another_journal(recogniser: Recogniser, tmp_path: Path) -> None:
    said = tmp_path / "another_game.wav"
    keep(spoken("flite slt", "another game"), said)
    first, second = tmp_path / "first.jsonl", tmp_path / "second.jsonl"
    with Conversation(first) as conversation:
        conversation.another = lambda: second
        conversation.hear(Heard(text="volume up"))
        ear = Ear(recogniser, conversation.is_whole)
        (heard,) = ear.listen(blocks(said), "microphone")
        entry = conversation.hear(heard)
        assert (entry.outcome, entry.note) == ("noted", AnotherGame()), heard
    assert [each.heard.text for each in journal.read(first)[0]] == ["volume up"]
    assert [each.heard.text for each in journal.read(second)[0]] == ["another game"]


def test_where_no_journal_can_be_made_notes_are_taken_and_it_is_said_at_the_start_and_at_the_end(
    sound_server: VirtualSound, tmp_path: Path, home: Mapping[str, str]
) -> None:
    (tmp_path / "data").touch()  # a file where the folder should be
    session = LiveSession(sound_server, None, environment=home)
    try:
        session.wait_for("can't be written: its folder is not there.")
        typed(session, ONE, "Noted. Our first")
        assert "Our first" in typed(session, "where is our first", "Answered. ")
    finally:
        status = session.end()
    assert status == 1, session.printed
    printed = "\n".join(session.printed)
    assert "The last 2 notes could not be written to the journal" in printed
    assert "Traceback" not in printed
    assert (tmp_path / "data").read_bytes() == b""
