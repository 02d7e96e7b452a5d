"""The first operation fails, then the second, and so on to the end: nothing acknowledged is lost.

The method is that of SQLite's tests ("How SQLite Is Tested", 3.1 to 3.3: out-of-memory, I/O error and crash
tests; memory): an injected layer under the file operations, a fault at each in turn, once and for ever.
"""

import errno
import random
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

import pytest

from tests.journal.entries import entry
from tests.journal.fake_disk import FakeDisk, Fault, Plan, PowerCut
from voicecoach.journal import Journal, JournalUnwritable, open_journal
from voicecoach.journal.line import encode
from voicecoach.session.values import Entry

FAULTS = {
    "I/O error": Fault(errno.EIO),
    "disk full": Fault(errno.ENOSPC),
    "short write": Fault(short=True),
    "power cut": Fault(power=True),
}
TORN = b'{"check":"0badc0de","version":1,"entry":{"number":4,"at'


class Games:
    """Sessions on one journal, and what was acknowledged in them."""

    def __init__(self, path: Path, disk: FakeDisk) -> None:
        self.path = path
        self.disk = disk
        self.acknowledged: tuple[Entry, ...] = ()

    def session(self, count: int) -> None:
        """Open, append so many entries, close; go on after every failure, as the program does."""
        try:
            with self._opened() as journal:
                for _ in range(count):
                    with suppress(JournalUnwritable):
                        journal.append(entry(len(journal.entries) + 1))
                    self._note(journal)
        except JournalUnwritable:
            pass

    @contextmanager
    def _opened(self) -> Iterator[Journal]:
        try:
            journal = open_journal(self.path, self.disk)
        except JournalUnwritable:
            journal = open_journal(self.path, self.disk)  # the user starts it again
        self._note(journal)
        try:
            yield journal
        finally:
            try:
                journal.close()
            finally:
                self._note(journal)

    def _note(self, journal: Journal) -> None:
        self.acknowledged = journal.entries[: len(journal.entries) - len(journal.pending)]

    def after_power_loss(self) -> tuple[Entry, ...]:
        """What a healthy machine reads once the power is back."""
        self.disk.plan = lambda _number, _name: None
        self.disk.lose_power()
        with open_journal(self.path, self.disk) as journal:
            return journal.entries


def _two_sessions(path: Path, plan: Plan, seed: int = 0) -> Games:
    """Three entries and a torn line are there; two entries, a restart, two more."""
    disk = FakeDisk(seed)
    games = Games(path, disk)
    games.session(3)
    disk.put(path, disk.content(path) + TORN)
    disk.trace.clear()
    disk.plan = plan
    with suppress(PowerCut):
        games.session(2)
        games.session(2)
    return games


def _steps(path: Path) -> list[str]:
    return _two_sessions(path, lambda _number, _name: None).disk.trace


def test_every_kind_of_operation_is_among_the_steps_that_are_made_to_fail(tmp_path: Path) -> None:
    steps = {step.split()[0] for step in _steps(tmp_path / "game.jsonl")}
    every = {"open", "size", "read", "write", "truncate", "fsync", "rename", "close", "sync_folder"}
    assert steps == every


@pytest.mark.parametrize("for_ever", [False, True], ids=["once", "for ever"])
@pytest.mark.parametrize("kind", FAULTS)
def test_whichever_operation_fails_nothing_acknowledged_is_lost(
    tmp_path: Path, kind: str, for_ever: bool
) -> None:
    path = tmp_path / "game.jsonl"
    for step in range(len(_steps(path))):

        def plan(number: int, _name: str, step: int = step) -> Fault | None:
            return FAULTS[kind] if number == step or (for_ever and number > step) else None

        games = _two_sessions(path, plan, seed=step)
        failed = games.disk.trace[step]
        kept = games.after_power_loss()
        assert kept[: len(games.acknowledged)] == games.acknowledged, failed
        assert kept[:3] == tuple(entry(number) for number in (1, 2, 3)), failed


@pytest.mark.parametrize("kind", ["I/O error", "disk full", "short write"])
def test_after_one_failure_at_any_operation_every_entry_is_on_disk_in_order(
    tmp_path: Path, kind: str
) -> None:
    path = tmp_path / "game.jsonl"
    for step in range(len(_steps(path))):
        games = _two_sessions(path, _only(step, FAULTS[kind]))
        failed = games.disk.trace[step]
        assert games.after_power_loss() == tuple(entry(number) for number in range(1, 8)), failed


def test_the_torn_line_is_kept_beside_the_journal_whichever_operation_fails(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    for step in range(len(_steps(path))):
        games = _two_sessions(path, _only(step, FAULTS["power cut"]))
        games.after_power_loss()
        kept = [data for name, data in games.disk.files().items() if ".torn-line-4-" in name]
        assert TORN in kept, games.disk.trace[step]


def _only(step: int, fault: Fault) -> Plan:
    """That step fails, and no other."""
    return lambda number, _name: fault if number == step else None


def _chaos(seed: int) -> Plan:
    """Failures drawn from the seed: about one operation in fifteen fails, some for a while."""
    chance = random.Random(seed)
    until, lasting = -1, None

    def plan(number: int, _name: str) -> Fault | None:
        nonlocal until, lasting
        if number <= until:
            return lasting
        if chance.random() > 1 / 15:
            return None
        until, lasting = number + chance.choice([0, 0, 1, 5, 20]), FAULTS[chance.choice(list(FAULTS))]
        return lasting

    return plan


@pytest.mark.parametrize("seed", range(100))
def test_through_many_failures_and_losses_of_power_nothing_acknowledged_is_lost(
    tmp_path: Path, seed: int
) -> None:
    # One seed is replayed alone by its name: pytest -k "lost and 17".
    disk = FakeDisk(seed)
    games = Games(tmp_path / "game.jsonl", disk)
    for _ in range(6):
        disk.plan = _chaos(seed * 1000 + len(games.acknowledged))
        with suppress(PowerCut):
            games.session(4)
            games.session(4)
        acknowledged = games.acknowledged
        kept = games.after_power_loss()
        assert kept[: len(acknowledged)] == acknowledged
        games.acknowledged = kept
    games.session(1)
    assert games.after_power_loss() == (*kept, entry(len(kept) + 1))


def test_a_failure_is_told_once_while_it_lasts_and_again_when_its_reason_changes(tmp_path: Path) -> None:
    disk = FakeDisk()
    with open_journal(tmp_path / "game.jsonl", disk) as journal:
        disk.plan = lambda _number, _name: FAULTS["disk full"]
        with pytest.raises(JournalUnwritable, match="the disk is full"):
            journal.append(entry(1))
        assert not journal.append(entry(2))
        assert not journal.retry()
        disk.plan = lambda _number, _name: FAULTS["I/O error"]
        with pytest.raises(JournalUnwritable, match="the disk reports an error"):
            journal.append(entry(3))
        assert len(journal.pending) == 3
        disk.plan = lambda _number, _name: None
        assert journal.append(entry(4))
        assert not journal.pending
        disk.plan = lambda _number, _name: FAULTS["disk full"]
        with pytest.raises(JournalUnwritable):
            journal.append(entry(5))
        disk.plan = lambda _number, _name: None
        assert journal.retry()
        assert journal.entries == tuple(entry(number) for number in range(1, 6))


def test_what_is_told_for_the_ear_has_no_digits_and_no_file_name(tmp_path: Path) -> None:
    disk = FakeDisk()
    journal = open_journal(tmp_path / "game-2.jsonl", disk)
    disk.plan = lambda _number, _name: FAULTS["disk full"]
    with pytest.raises(JournalUnwritable) as told:
        journal.append(entry(1))
    assert told.value.spoken == (
        "The journal can't be written: the disk is full. Notes are kept in memory until it can be. "
        "Make room on the disk."
    )
    assert "game-2.jsonl" in str(told.value)
    with pytest.raises(JournalUnwritable, match="last 1 notes could not be written") as lost:
        journal.close()
    assert lost.value.spoken == "The last notes could not be written to the journal, and are lost."


def test_a_failed_sync_is_never_trusted_when_the_next_one_succeeds(tmp_path: Path) -> None:
    # Linux marks pages clean after a failed write-back, and the next fsync reports success ("Can
    # Applications Recover from fsync Failures?", Rebello and others, 2020; memory): writing again is the
    # only cure. With thirty seeds the fake disk loses every mixture of pages.
    for seed in range(30):
        disk = FakeDisk(seed)
        games = Games(tmp_path / "game.jsonl", disk)
        with open_journal(games.path, disk) as journal:
            disk.plan = lambda _number, name: FAULTS["I/O error"] if name.startswith("fsync") else None
            with pytest.raises(JournalUnwritable):
                journal.append(entry(1))
            disk.plan = lambda _number, _name: None
            assert journal.retry()
        assert games.after_power_loss() == (entry(1),)


def test_a_journal_that_cannot_be_opened_waits_in_memory_and_is_written_once_it_can(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    disk = FakeDisk()
    disk.plan = lambda _number, _name: Fault(errno.EROFS)
    with pytest.raises(JournalUnwritable, match="the disk is read-only"):
        open_journal(path, disk)
    with open_journal(path, disk, wait=True) as journal:
        assert journal.trouble is not None
        assert journal.trouble.spoken.startswith(
            "The journal can't be written: the disk is read-only. Notes are"
        )
        assert not journal.append(entry(1))  # it was told at opening
        assert not journal.append(entry(2))
        disk.plan = lambda _number, _name: None
        assert journal.append(entry(3))
    assert disk.content(path) == b"".join(encode(entry(number)) for number in (1, 2, 3))


def test_a_journal_that_waits_goes_on_from_what_can_be_read(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    with open_journal(path) as journal:
        journal.append(entry(1))
    disk = FakeDisk()
    disk.put(path, path.read_bytes())
    disk.plan = lambda _number, _name: Fault(errno.EROFS)
    with open_journal(path, disk, wait=True) as journal:
        assert journal.entries == (entry(1),)
        assert not journal.append(entry(2))
        disk.plan = lambda _number, _name: None
        assert journal.retry()
    assert disk.content(path) == encode(entry(1)) + encode(entry(2))


def test_a_journal_that_another_program_wrote_to_while_it_waited_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    disk = FakeDisk()
    disk.plan = lambda _number, _name: Fault(errno.EROFS)
    journal = open_journal(path, disk, wait=True)
    disk.plan = lambda _number, _name: None
    with open_journal(path, disk) as other:
        other.append(entry(1))
        with pytest.raises(JournalUnwritable, match="another program is writing it"):
            journal.append(entry(1))
    with pytest.raises(JournalUnwritable, match="another program has changed it"):
        journal.append(entry(2))
    with pytest.raises(JournalUnwritable, match="last 2 notes"):
        journal.close()
    assert disk.content(path) == encode(entry(1))
    open_journal(path, disk).close()
