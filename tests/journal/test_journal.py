"""The journal on a real file system: locked, private, durable, quick to read."""

import errno
import fcntl
import json
import os
import resource
import signal
import stat
import subprocess
import sys
import time
from pathlib import Path

import jsonschema
import pytest

from tests.journal.entries import entries, entry
from tests.schemas import schema
from voicecoach.errors import DataProblem, Problem
from voicecoach.hear.values import Heard
from voicecoach.journal import JournalBusy, JournalUnwritable, open_journal, read
from voicecoach.journal.line import MAX_LINE, encode
from voicecoach.journal.values import JournalLine

WRITER = Path(__file__).with_name("writer.py")


def test_what_is_appended_is_read_back_the_same(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    with open_journal(path) as journal:
        for one in entries(3):
            assert journal.append(one)
        assert journal.entries == entries(3)
    assert read(path) == (entries(3), None)
    with open_journal(path) as journal:
        assert journal.entries == entries(3)
        assert journal.append(entry(4))
    assert read(path) == (entries(4), None)


def test_a_line_is_json_that_fits_its_documented_form() -> None:
    line = encode(entry(1))
    assert JournalLine.model_validate_json(line).entry == entry(1)
    assert line.startswith(b'{"check":"')
    assert line.endswith(b"}\n")
    assert line.count(b"\n") == 1


def test_a_line_keeps_to_its_json_schema() -> None:
    validator = jsonschema.Draft202012Validator(json.loads(schema("journal")))
    validator.validate(json.loads(encode(entry(1))))


def test_a_heard_text_with_any_sign_stays_on_its_own_line(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    text = "<script>\n\r\x00\x1b[31m \u2028\u202e\U0001f3b3 '\""
    one = entry(1).model_copy(update={"heard": Heard(text=text)})
    with open_journal(path) as journal:
        journal.append(one)
    assert path.read_bytes().count(b"\n") == 1
    assert read(path)[0][0].heard.text == text


@pytest.mark.parametrize(
    "heard",
    [
        Heard(text="").model_copy(update={"started_s": float("nan")}),  # copying checks nothing
        Heard(text="").model_copy(update={"ended_s": float("-inf")}),
        Heard(text="").model_copy(update={"text": "half a pair \ud83c"}),
    ],
    ids=["not a number", "infinite", "half a UTF-16 pair"],
)
def test_an_entry_that_could_not_be_read_back_is_refused_and_nothing_is_written(
    tmp_path: Path, heard: Heard
) -> None:
    path = tmp_path / "game.jsonl"
    with open_journal(path) as journal:
        with pytest.raises(DataProblem, match="Note 1 can't be kept"):
            journal.append(entry(1).model_copy(update={"heard": heard}))
        assert journal.append(entry(1))
    assert read(path) == ((entry(1),), None)


def test_an_entry_longer_than_any_that_is_read_back_is_refused(tmp_path: Path) -> None:
    with open_journal(tmp_path / "game.jsonl") as journal:
        with pytest.raises(DataProblem, match="Note 1 is too long"):
            journal.append(entry(1).model_copy(update={"heard": Heard(text="a" * MAX_LINE)}))
        assert journal.entries == ()


def test_an_entry_out_of_its_turn_is_a_mistake_of_the_program(tmp_path: Path) -> None:
    with open_journal(tmp_path / "game.jsonl") as journal, pytest.raises(ValueError, match="entry 2 where 1"):
        journal.append(entry(2))


def test_a_new_journal_and_all_that_lies_beside_it_are_for_the_user_alone(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    before = os.umask(0)
    try:
        with open_journal(path) as journal:
            journal.append(entry(1))
        with path.open("ab") as stream:
            stream.write(b"{")
        open_journal(path).close()
    finally:
        os.umask(before)
    modes = {one.name: stat.S_IMODE(one.stat().st_mode) for one in tmp_path.iterdir()}
    assert len(modes) == 3
    assert set(modes.values()) == {0o600}


def test_two_programs_cannot_write_one_journal_whatever_they_call_it(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    link = tmp_path / "link.jsonl"
    link.symlink_to(path)
    with open_journal(path) as journal:
        journal.append(entry(1))
        for name in (path, link, tmp_path / "." / "game.jsonl"):
            with pytest.raises(JournalBusy, match=r"Another voicecoach is writing the journal .*game\.jsonl"):
                open_journal(name)
        assert read(path) == ((entry(1),), None)  # readers need no lock
    open_journal(link).close()


def test_where_files_cannot_be_locked_the_journal_is_refused_or_waited_for_in_words(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_locks(_file: object, _operation: int) -> None:
        raise OSError(errno.ENOSYS, os.strerror(errno.ENOSYS))  # as some network file systems answer flock(2)

    path = tmp_path / "game.jsonl"
    words = r"files can't be locked there\. .*Choose a folder on this computer's own disk\."
    with monkeypatch.context() as without:
        without.setattr(fcntl, "flock", no_locks)
        with pytest.raises(JournalUnwritable, match=words):
            open_journal(path)
        waiting = open_journal(path, wait=True)
        assert not waiting.append(entry(1))
    assert waiting.retry()
    waiting.close()
    assert read(path) == (entries(1), None)


def test_a_second_process_is_refused_until_the_first_is_killed(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    with _writer(path) as process:
        _acknowledged(process, 3)
        with pytest.raises(JournalBusy):
            open_journal(path)
        process.kill()
    open_journal(path).close()


def _writer(path: Path) -> subprocess.Popen[str]:
    """A process that appends entries until it is killed, and prints the number of each that is on disk."""
    return subprocess.Popen([sys.executable, str(WRITER), str(path)], stdout=subprocess.PIPE, text=True)


def _acknowledged(process: subprocess.Popen[str], count: int) -> int:
    assert process.stdout
    return [int(process.stdout.readline()) for _ in range(count)][-1]


@pytest.mark.parametrize("seed", range(20))
def test_kill_9_at_any_moment_loses_nothing_that_was_acknowledged(tmp_path: Path, seed: int) -> None:
    path = tmp_path / "game.jsonl"
    with _writer(path) as process:
        _acknowledged(process, 1)
        # The moments are spread over the twenty; where within a write they fall is up to the machine.
        time.sleep(0.0007 * seed + 0.0001 * (seed % 7))
        os.kill(process.pid, signal.SIGKILL)
        assert process.stdout
        acknowledged = max([1, *(int(line) for line in process.stdout if line.endswith("\n"))])
    with open_journal(path) as journal:
        assert len(journal.entries) >= acknowledged
        assert journal.entries == entries(len(journal.entries))
        assert journal.append(entry(len(journal.entries) + 1))


def test_on_a_real_full_disk_entries_wait_and_are_written_once_there_is_room(tmp_path: Path) -> None:
    # A limit on the size of files makes the system itself write short, then refuse.
    path = tmp_path / "game.jsonl"
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    line = len(encode(entry(1)))
    with open_journal(path) as journal:
        journal.append(entry(1))
        resource.setrlimit(resource.RLIMIT_FSIZE, (line + line // 2, hard))
        try:
            with pytest.raises(JournalUnwritable, match="the file has reached its largest size"):
                journal.append(entry(2))
            assert path.stat().st_size == line + line // 2
            assert read(path)[0] == (entry(1),)
        finally:
            resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
        assert journal.append(entry(3))
    assert read(path) == (entries(3), None)


def test_what_another_program_wrote_is_never_cut_off(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    with open_journal(path) as journal:
        journal.append(entry(1))
        with path.open("ab") as stream:
            stream.write(b"a note by hand\n")
        with pytest.raises(JournalUnwritable, match="another program has changed it"):
            journal.append(entry(2))
        assert path.read_bytes().endswith(b"a note by hand\n")
        os.truncate(path, len(encode(entry(1))))
        assert journal.retry()
    assert read(path) == (entries(2), None)


def test_a_journal_that_was_replaced_or_deleted_is_noticed_at_the_next_note(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    other = tmp_path / "other.jsonl"
    with open_journal(path) as journal:
        journal.append(entry(1))
        path.rename(other)
        with pytest.raises(JournalUnwritable, match="its folder is not there"):
            journal.append(entry(2))
        other.rename(path)
        assert journal.retry()
    assert read(path) == (entries(2), None)


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("missing/game.jsonl", "can't be opened for writing: its folder is not there"),
        (".", "is not a plain file"),
        ("a" * 300, "its name is too long"),
        ("bad\0name", r"bad\?name can't be the name of a journal"),
    ],
    ids=["no folder", "a folder", "long name", "NUL in the name"],
)
def test_a_place_that_cannot_hold_a_journal_is_refused_in_words(tmp_path: Path, name: str, said: str) -> None:
    with pytest.raises(Problem, match=said):
        open_journal(tmp_path / name)
    assert list(tmp_path.iterdir()) == []


def test_devices_and_missing_files_are_not_read() -> None:
    with pytest.raises(Problem, match="is not a plain file"):
        read("/dev/zero")
    with pytest.raises(Problem, match="there is no such file"):
        read("missing\0.jsonl")
    with pytest.raises(Problem, match="there is no such file"):
        read("missing.jsonl")


def test_ten_thousand_entries_are_read_in_under_a_second_of_processor_time(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    path.write_bytes(b"".join(encode(one) for one in entries(10_000)))
    before = time.process_time()
    kept, said = read(path)
    taken = time.process_time() - before
    assert len(kept) == 10_000
    assert said is None
    assert taken < 1.0
