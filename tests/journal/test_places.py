"""Where journals are kept, and which one a game goes on in."""

import os
import stat
from datetime import datetime, timedelta, timezone
from pathlib import Path

import pytest

from voicecoach.journal import JournalUnwritable, places

BST = timezone(timedelta(hours=1))
AFTERNOON = datetime(2026, 5, 30, 16, 20, tzinfo=BST)


def _game(folder: Path, name: str, written: datetime) -> Path:
    path = folder / name
    path.write_text("{}\n")
    os.utime(path, (written.timestamp(), written.timestamp()))
    return path


def test_the_folder_of_journals_is_made_for_the_user_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    folder = places.folder()
    assert folder.is_relative_to(tmp_path)
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
    assert places.folder() == folder


def test_a_folder_that_cannot_be_made_is_told_in_words(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").touch()
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "file"))
    with pytest.raises(JournalUnwritable, match="its folder is not there"):
        places.folder()


def test_without_a_journal_there_is_no_game_and_the_first_is_named_by_the_date(tmp_path: Path) -> None:
    assert places.under_way(AFTERNOON, tmp_path) is None
    assert places.another(AFTERNOON, tmp_path) == tmp_path / "2026-05-30.jsonl"


def test_todays_last_game_is_under_way_and_another_gets_the_next_number(tmp_path: Path) -> None:
    _game(tmp_path, "2026-05-30.jsonl", AFTERNOON - timedelta(hours=9))
    for number in range(2, 11):
        last = _game(tmp_path, f"2026-05-30-{number}.jsonl", AFTERNOON - timedelta(hours=8))
    assert places.under_way(AFTERNOON, tmp_path) == last
    assert places.another(AFTERNOON, tmp_path) == tmp_path / "2026-05-30-11.jsonl"


def test_yesterdays_game_is_over_unless_it_was_written_to_just_now(tmp_path: Path) -> None:
    night = datetime(2026, 5, 31, 0, 10, tzinfo=BST)
    path = _game(tmp_path, "2026-05-30.jsonl", night - timedelta(minutes=15))
    assert places.under_way(night, tmp_path) == path
    assert places.under_way(night + timedelta(hours=10), tmp_path) is None


def test_a_clock_set_back_by_a_flat_battery_does_not_hide_the_game(tmp_path: Path) -> None:
    path = _game(tmp_path, "2026-05-30.jsonl", AFTERNOON)
    flat = datetime(1970, 1, 1, 0, 1, tzinfo=timezone.utc)
    assert places.under_way(flat, tmp_path) == path
    assert places.another(flat, tmp_path) == tmp_path / "2026-05-30-2.jsonl"


def test_other_files_and_empty_journals_are_no_games(tmp_path: Path) -> None:
    for name in ("2026-05-30.jsonl.lock", "2026-05-30.jsonl.torn-line-3-0badc0de", "practice.jsonl"):
        _game(tmp_path, name, AFTERNOON)
    (tmp_path / "2026-05-30.jsonl").touch()
    assert places.under_way(AFTERNOON, tmp_path) is None
    assert places.another(AFTERNOON, tmp_path) == tmp_path / "2026-05-30.jsonl"
