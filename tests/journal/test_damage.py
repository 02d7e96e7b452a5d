"""Journals cut, flipped, zeroed, joined and meddled with: what is sound is kept, the rest is never hidden."""

import io
import random
from collections import Counter
from pathlib import Path

import pytest

from tests.journal.entries import entries, entry
from tests.journal.fake_disk import FakeDisk
from voicecoach.errors import DataProblem
from voicecoach.journal import open_journal, read
from voicecoach.journal.line import MAX_LINE, encode
from voicecoach.journal.scan import scan

LINES = [encode(one) for one in entries(3)]
WHOLE = b"".join(LINES)


def _open(path: Path, content: bytes) -> tuple[int, str | None, FakeDisk]:
    """How many entries open_journal keeps of this content, what it says, and the disk after it."""
    disk = FakeDisk()
    disk.put(path, content)
    with open_journal(path, disk) as journal:
        assert journal.entries == entries(len(journal.entries))
        return len(journal.entries), journal.repair, disk


def _aside(disk: FakeDisk) -> list[bytes]:
    return [data for name, data in disk.files().items() if ".torn-line-" in name]


def test_cut_at_every_byte_the_sound_lines_are_kept_and_the_rest_is_set_aside(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    ends = [0, len(LINES[0]), len(LINES[0] + LINES[1]), len(WHOLE)]
    for cut in range(len(WHOLE) + 1):
        kept, said, disk = _open(path, WHOLE[:cut])
        # A last line that lacks only its line feed is whole.
        assert kept == max(number for number, end in enumerate(ends) if end <= cut + (end > 0))
        torn = WHOLE[ends[kept] : cut]
        assert _aside(disk) == ([torn] if torn else [])
        assert (said is not None) == bool(torn)
        assert disk.content(path) == WHOLE[: ends[kept]]


def test_after_a_cut_at_every_byte_of_the_last_line_the_journal_goes_on(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    for cut in range(len(LINES[0]), len(LINES[0] + LINES[1]) - 1):
        disk = FakeDisk()
        disk.put(path, WHOLE[:cut])
        with open_journal(path, disk) as journal:
            assert journal.append(entry(2))
        assert disk.content(path) == LINES[0] + LINES[1]


def test_a_repair_names_the_side_file_and_is_not_said_again(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    path.write_bytes(WHOLE + b'{"check":"12')
    with open_journal(path) as journal:
        assert journal.repair is not None
        assert journal.repair_spoken == (
            "The end of the journal was torn and has been set aside. The notes before it are safe."
        )
    (side,) = tmp_path.glob("game.jsonl.torn-*")
    assert str(side) in journal.repair
    assert "12 bytes after note 3" in journal.repair
    assert side.read_bytes() == b'{"check":"12'
    with open_journal(path) as journal:
        assert journal.repair is None


@pytest.mark.parametrize("count", [1, 3])
def test_with_any_bit_of_the_last_line_flipped_it_is_torn_and_the_others_are_kept(count: int) -> None:
    before, last = b"".join(LINES[: count - 1]), LINES[count - 1]
    for place, value in enumerate(last):
        for other in {value ^ (1 << bit) for bit in range(8)} | {0, 0x0A, 0xFF} - {value}:
            content = before + last[:place] + bytes([other]) + last[place + 1 :]
            found = scan(io.BytesIO(content).read, "game.jsonl")
            assert len(found.entries) == count - 1, (place, other)
            assert (found.good, found.torn) == (len(before), len(last)), (place, other)


def test_with_every_byte_of_the_last_line_flipped_it_is_set_aside_and_the_journal_goes_on(
    tmp_path: Path,
) -> None:
    path = tmp_path / "game.jsonl"
    before, last = LINES[0] + LINES[1], LINES[2]
    for place, value in enumerate(last):
        broken = last[:place] + bytes([value ^ 0xFF]) + last[place + 1 :]
        kept, said, disk = _open(path, before + broken)
        assert (kept, bool(said), _aside(disk)) == (2, True, [broken]), place


@pytest.mark.parametrize(
    "tail",
    [
        bytes(4096),
        LINES[2][:40] + bytes(200),
        bytes(64) + LINES[2][64:],
        b"\n",
        b"\r\n\r\n",
        b"{}\n",
        b"\xff",
    ],
    ids=[
        "zeros",
        "line then zeros",
        "zeros then line",
        "empty line",
        "two empty lines",
        "other JSON",
        "no text",
    ],
)
def test_a_tail_that_is_no_line_is_set_aside(tmp_path: Path, tail: bytes) -> None:
    kept, said, disk = _open(tmp_path / "game.jsonl", LINES[0] + LINES[1] + tail)
    assert kept == 2
    assert said
    assert _aside(disk) == [tail]


@pytest.mark.parametrize("start", [bytes(4096), bytes(64) + LINES[0][64:], LINES[0][:100] + bytes(300)])
def test_a_first_line_that_a_loss_of_power_left_in_zeros_is_set_aside(tmp_path: Path, start: bytes) -> None:
    kept, _, disk = _open(tmp_path / "game.jsonl", start)
    assert kept == 0
    assert _aside(disk) == [start]


def test_an_empty_journal_is_a_game_that_has_not_begun(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    path.touch()
    assert read(path) == ((), None)
    assert _open(path, b"")[:2] == (0, None)


def test_every_byte_flipped_before_the_last_line_stops_with_the_number_of_its_line() -> None:
    for place in range(len(LINES[0] + LINES[1])):
        broken = bytearray(WHOLE)
        broken[place] ^= 0x01
        line = 1 if place < len(LINES[0]) else 2
        with pytest.raises(DataProblem, match=rf"^Line {line} of the journal .* is damaged") as told:
            scan(io.BytesIO(broken).read, "game.jsonl")
        assert told.value.exit_status == 5


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (LINES[0] + bytes(512) + LINES[1], "Line 2 .* is damaged"),
        (LINES[0] + b"\n" + LINES[1], "Line 2 .* is damaged"),
        (LINES[0] + LINES[2], "Line 2 .* has number 3 where 2 was due: note 2 is missing"),
        (LINES[0] + LINES[1] + LINES[1], "Line 3 .* has number 2 where 3 was due: note 2 is there twice"),
        (LINES[1] + LINES[2], "Line 1 .* has number 2 where 1 was due: note 1 is missing"),
        (LINES[1] + LINES[0], "Line 1 .* has number 2 where 1 was due"),
        (WHOLE + WHOLE, "Line 4 .* has number 1 where 4 was due: note 1 is there twice"),
    ],
    ids=["zeros within", "empty line within", "missing", "twice", "no first", "swapped", "joined to itself"],
)
def test_damage_before_a_sound_line_stops_and_changes_nothing(
    tmp_path: Path, content: bytes, said: str
) -> None:
    path = tmp_path / "game.jsonl"
    path.write_bytes(content)
    with pytest.raises(DataProblem, match=said):
        open_journal(path)
    with pytest.raises(DataProblem, match=said):
        read(path)
    assert path.read_bytes() == content
    assert {one.name for one in tmp_path.iterdir()} <= {"game.jsonl", "game.jsonl.lock"}


def test_a_journal_that_went_through_a_program_with_other_line_ends_reads_the_same(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    path.write_bytes(WHOLE.replace(b"\n", b"\r\n"))
    assert read(path) == (entries(3), None)
    with open_journal(path) as journal:
        assert journal.append(entry(4))
    assert read(path) == (entries(4), None)


def test_a_line_longer_than_any_of_ours_is_set_aside_in_bounded_memory(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    path.write_bytes(WHOLE + b'{"check":"' + b"x" * (3 * MAX_LINE))
    with open_journal(path) as journal:
        assert len(journal.entries) == 3
    assert path.read_bytes() == WHOLE
    path.write_bytes(LINES[0] + b"x" * (3 * MAX_LINE) + b"\n" + LINES[1])
    with pytest.raises(DataProblem, match=r"Line 2 .* is damaged"):
        read(path)


def test_a_clock_that_jumps_back_changes_no_order(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    times = ["2026-05-30T14:00:00+01:00", "1970-01-01T00:00:09+00:00", "2026-05-30T14:02:00+01:00"]
    told = tuple(entry(number, at) for number, at in enumerate(times, start=1))
    with open_journal(path) as journal:
        for one in told:
            journal.append(one)
    assert read(path) == (told, None)


def test_a_reader_leaves_a_torn_tail_out_says_so_and_changes_nothing(tmp_path: Path) -> None:
    path = tmp_path / "game.jsonl"
    path.write_bytes(WHOLE + LINES[0][:50])
    kept, said = read(path)
    assert kept == entries(3)
    assert said is not None
    assert "50 bytes after note 3" in said
    assert path.read_bytes() == WHOLE + LINES[0][:50]
    assert [one.name for one in tmp_path.iterdir()] == ["game.jsonl"]


@pytest.mark.parametrize("name", ["photo.jpg", "notes.txt", "zeros.iso"])
def test_a_file_that_is_something_else_is_refused_and_left_without_a_trace(tmp_path: Path, name: str) -> None:
    content = {
        "photo.jpg": b"\xff\xd8\xff\xe0\0\x10JFIF",
        "notes.txt": b"buy milk\n",
        "zeros.iso": bytes(32768) + b"\x01CD001\x01",
    }[name]
    path = tmp_path / name
    path.write_bytes(content)
    for open_or_read in (open_journal, read):
        with pytest.raises(DataProblem, match="is not a voicecoach journal"):
            open_or_read(path)
    assert path.read_bytes() == content
    assert [one.name for one in tmp_path.iterdir()] == [name]


def test_ten_thousand_mutated_journals_are_read_repaired_or_stopped_at() -> None:
    chance = random.Random(20260530)
    outcomes = Counter(_outcome(_mutated(chance)) for _ in range(10_000))
    assert set(outcomes) == {"read", "repaired", "stopped"}
    assert min(outcomes.values()) > 500, outcomes


def _outcome(content: bytes) -> str:
    try:
        found = scan(io.BytesIO(content).read, "game.jsonl")
    except DataProblem:
        return "stopped"
    assert tuple(found.entries) == entries(len(found.entries))
    assert content.startswith(b"".join(LINES[: len(found.entries)]).removesuffix(b"\n"))
    return "repaired" if found.torn else "read"


def _mutated(chance: random.Random) -> bytes:
    content = bytearray(WHOLE)
    for _ in range(chance.choice([0, 1, 1, 2, 5])):
        place, other = chance.randrange(len(content)), chance.randrange(len(content))
        start, end = sorted((place, other))
        match chance.randrange(6):
            case 0:
                content[place] = chance.randrange(256)
            case 1:
                del content[max(1, place) :]
            case 2:
                del content[start:end]
            case 3:
                content[start:end] = bytes(end - start)
            case 4:
                content[place:place] = content[start:end]
            case _:
                content[place:place] = chance.randbytes(chance.randrange(1, 40))
        content = content or bytearray(b"\n")
    return bytes(content)
