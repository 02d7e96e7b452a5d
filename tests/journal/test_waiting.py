"""A journal whose place isn't there yet, or holds something else meanwhile: notes wait."""

import stat
from datetime import datetime
from pathlib import Path

import pytest

from tests.journal.entries import entries, entry
from voicecoach.conversation import Conversation
from voicecoach.hear.values import Heard
from voicecoach.journal import JournalUnwritable, open_journal, places, read

FOREIGN = "shopping: bread, milk\n"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A journal's path in whose folder's place there is a file."""
    (tmp_path / "later").touch()
    return tmp_path / "later" / "game.jsonl"


def make_folder(path: Path) -> None:
    path.parent.unlink()
    path.parent.mkdir()


def test_entries_for_a_folder_that_is_not_there_wait_until_it_is(path: Path) -> None:
    with pytest.raises(JournalUnwritable, match="its folder is not there"):
        open_journal(path)
    with open_journal(path, wait=True) as journal:
        assert journal.trouble is not None
        assert "its folder is not there" in journal.trouble.spoken
        assert not journal.append(entry(1))
        path.parent.unlink()  # now it can be made
        assert journal.retry()
        assert journal.append(entry(2))
    assert read(path) == (entries(2), None)
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700


def test_what_else_was_put_in_the_place_of_a_journal_is_told_once_and_left_alone(path: Path) -> None:
    journal = open_journal(path, wait=True)
    make_folder(path)
    path.write_text(FOREIGN)
    with pytest.raises(JournalUnwritable, match="is not a voicecoach journal") as told:
        journal.append(entry(1))
    assert told.value.spoken.startswith("Something else is in the journal's place. Notes are kept in memory.")
    assert not journal.append(entry(2))
    assert not journal.retry()
    assert path.read_text() == FOREIGN
    path.unlink()
    assert journal.retry()
    journal.close()
    assert read(path) == (entries(2), None)


def test_a_journal_in_whose_place_something_else_stays_gives_its_last_notes_up(path: Path) -> None:
    journal = open_journal(path, wait=True)
    make_folder(path)
    path.write_text(FOREIGN)
    with pytest.raises(JournalUnwritable):
        journal.append(entry(1))
    with pytest.raises(JournalUnwritable, match="last 1 notes"):
        journal.close()
    assert path.read_text() == FOREIGN


def test_a_conversation_writes_what_waits_without_a_further_note_and_says_it_once(path: Path) -> None:
    told: list[str] = []
    with Conversation(path, lambda problem: told.append(problem.spoken), wait=True) as conversation:
        assert len(told) == 1
        assert not conversation.catch_up(), "nothing waits"
        assert conversation.hear(Heard(text="our first, a metre, two o'clock")).outcome == "noted"
        assert not conversation.catch_up()
        assert len(told) == 1, "told at the start"
        make_folder(path)
        assert conversation.catch_up()
        assert not conversation.catch_up(), "nothing waits any more"
        assert len(read(path)[0]) == 1


def test_a_folder_of_journals_that_cannot_be_listed_is_told_in_words(tmp_path: Path) -> None:
    folder = tmp_path / "journals"
    folder.touch()
    now = datetime.now().astimezone()
    with pytest.raises(JournalUnwritable, match="its folder is not there"):
        places.under_way(now, folder)
    with pytest.raises(JournalUnwritable, match="its folder is not there"):
        places.another(now, folder)
