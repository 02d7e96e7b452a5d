"""The end of the day: the journal is closed, it is said where it is, and the coach gets a copy of it."""

import resource
from pathlib import Path

import pytest

from voicecoach import journal
from voicecoach.commands.handing_over import copy_for_coach, where_it_is
from voicecoach.conversation import Conversation
from voicecoach.errors import Problem
from voicecoach.hear.values import Heard
from voicecoach.session.about import is_the_end

ONE, TWO = "our first, a metre, two o'clock", "their first, eighty centimetres, five o'clock"
END = "that's all for today"


def game(path: Path, *lines: str) -> Path:
    with Conversation(path) as conversation:
        for line in lines:
            conversation.hear(Heard(text=line))
    return path


def test_it_is_kept_as_the_last_of_the_journal_and_changes_no_head(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    with Conversation(path) as conversation:
        conversation.may_end = True
        before = conversation.hear(Heard(text=ONE))
        entry = conversation.hear(Heard(text=END))
        assert is_the_end(entry)
        assert not is_the_end(before)
        assert [each.text for each in entry.say] == ["That's all for today."]
        conversation.close()
        assert conversation.journal == path
    assert [each.heard.text for each in journal.read(path)[0]] == [ONE, END]
    with Conversation(path) as again:
        assert len(again.picture().lies) == 1
        assert again.going_on


def test_a_session_that_ends_by_itself_says_so_and_goes_on() -> None:
    with Conversation() as conversation:
        entry = conversation.hear(Heard(text=END))
        assert entry.outcome == "refused"
        assert conversation.hear(Heard(text=ONE)).outcome == "noted"


def test_where_it_is_is_said_without_a_figure() -> None:
    said = where_it_is(Path("/home/maia/journals/2026-06-01-2.jsonl"))
    assert said == (
        "The journal is closed. It is in the folder journals, named two thousand twenty six, six, one, two."
    )


def test_the_coach_gets_the_journal_as_it_is_and_a_page_of_it(tmp_path: Path) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    path = game(tmp_path / "2026-06-01.jsonl", ONE, TWO)
    copies = copy_for_coach(path, stick)
    assert copies.journal.read_bytes() == path.read_bytes()
    assert "eighty centimetres" in copies.page.read_text(encoding="utf-8")
    assert sorted(each.name for each in stick.iterdir()) == ["2026-06-01.html", "2026-06-01.jsonl"]


def test_a_game_that_went_on_takes_the_place_of_its_earlier_copy_and_no_other_game_does(
    tmp_path: Path,
) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    path = game(tmp_path / "2026-06-01.jsonl", ONE)
    first = copy_for_coach(path, stick)
    game(path, TWO)
    assert copy_for_coach(path, stick) == first
    (tmp_path / "other").mkdir()
    another = game(tmp_path / "other" / "2026-06-01.jsonl", TWO)
    copies = copy_for_coach(another, stick)
    assert copies.journal.name == "2026-06-01-copy-2.jsonl"
    assert copies.page.name == "2026-06-01-copy-2.html"
    assert first.journal.read_bytes() == path.read_bytes()


def test_a_stick_that_can_take_no_more_is_told_and_keeps_no_half_file(tmp_path: Path) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    path = game(tmp_path / "2026-06-01.jsonl", ONE)
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (10, before[1]))  # writing then fails, as on a full stick
    try:
        with pytest.raises(Problem, match="can't be written: the file has reached its largest size"):
            copy_for_coach(path, stick)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
    assert list(stick.iterdir()) == []
