"""What is kept of the phrase book: the same book, sooner; and never one in which there is any doubt."""

import json
import os
import shutil
import stat
import subprocess
import sys
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path

import pytest

from voicecoach import kept_book, phrasebook, places
from voicecoach.kept import kept
from voicecoach.phrasebook import PhraseBook, book
from voicecoach.phrasebook.written import tree, written

BOOK = "from voicecoach import kept_book; print(len(kept_book.load().rules))"
READ_ANEW = "; import sys; print('hassil' in sys.modules)"
"""Only reading templates needs hassil."""


@pytest.fixture
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "cache"
    monkeypatch.setenv("VOICECOACH_CACHE", str(folder))
    return folder


def read_anew(package: Path, **environment: str) -> bool:
    """Whether a program that starts now reads the book's templates."""
    ran = subprocess.run(
        [sys.executable, "-c", BOOK + READ_ANEW],
        env=os.environ | {"PYTHONPATH": str(package)} | environment,
        cwd=package,
        capture_output=True,
        text=True,
        check=True,
    )
    rules, anew = ran.stdout.split()
    assert int(rules) > 50
    assert ran.stderr == ""
    return anew == "True"


def test_what_was_kept_is_the_book(cache: Path) -> None:
    kept_book._load.cache_clear()
    for _ in ("worked out", "kept"):
        found, read = vars(kept_book.load()), vars(PhraseBook(book.read()))
        for name in (
            "lists",
            "rules",
            "parts",
            "bags",
            "commands",
            "orders",
            "loose",
            "loose_heard",
            "misheard",
        ):
            assert found[name] == read[name], name
        assert found.keys() - {"_key"} == read.keys()
        assert (cache / "book.json").is_file()
        kept_book._load.cache_clear()


def test_every_tree_comes_back_as_it_was_written() -> None:
    nodes = list(phrasebook.load().nodes())
    assert len(nodes) > 300
    for node in nodes:
        assert tree(json.loads(json.dumps(written(node)))) == node


@pytest.mark.parametrize(
    "data", [5, None, [], ["two", "a"], ["one", 3], ["named", 4, None], ["all", ["x"]], {}]
)
def test_what_is_no_tree_is_not_taken_for_one(data: object) -> None:
    with pytest.raises(ValueError, match="no tree"):
        tree(data)


def test_the_sentences_for_the_ear_are_those_that_the_book_draws(cache: Path) -> None:
    kept_book._load.cache_clear()
    drawn = phrasebook.load().sample(2, 5, "bowl_rested")
    for _ in ("worked out", "kept"):
        assert kept_book.load().sample(2, 5, "bowl_rested") == drawn
    assert (cache / "sentences-2-5-bowl_rested.json").is_file()
    assert kept_book.load().sample(2, 6, "bowl_rested") != drawn


def test_the_second_start_reads_no_template_and_a_change_of_any_file_of_the_book_has_it_read_again(
    cache: Path, tmp_path: Path
) -> None:
    package = tmp_path / "elsewhere"
    shutil.copytree(places.PACKAGE, package / "voicecoach", ignore=shutil.ignore_patterns("__pycache__"))
    assert read_anew(package)
    assert not read_anew(package)
    for changed in ("numbers.yaml", "slips/vosk-model-small-en-us-0.15.yaml", "grammar.py"):
        with (package / "voicecoach" / "phrasebook" / changed).open("a") as file:
            file.write("\n# changed\n")
        assert read_anew(package), changed
        assert not read_anew(package), changed


def test_a_book_is_had_where_nothing_can_be_kept(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("no folder")
    for _ in range(2):
        assert read_anew(places.PACKAGE.parent, VOICECOACH_CACHE=str(tmp_path / "file"))


def _file(path: Path, key: str, data: object) -> bytes:
    kept(path, key, lambda: data, lambda found: found)
    return path.read_bytes()


def _hashed(body: bytes) -> bytes:
    return f"key {sha256(body).hexdigest()}\n".encode() + body


DOUBTFUL: dict[str, Callable[[bytes], bytes]] = {
    "empty": lambda whole: b"",
    "cut short": lambda whole: whole[:-1],
    "its first line alone": lambda whole: whole.splitlines(keepends=True)[0],
    "one bit altered": lambda whole: whole[:-3] + bytes([whole[-3] ^ 1]) + whole[-2:],
    "more behind it": lambda whole: whole + b" ",
    "of another key": lambda whole: whole.replace(b"key", b"yek", 1),
    "no text": lambda whole: b"\xff\xfe" * 40,
    "a hash of what is no JSON": lambda whole: _hashed(b"{"),
    "a hash of other data": lambda whole: _hashed(b"[1]"),
    "nested without end": lambda whole: _hashed(b"[" * 100_000),
}


@pytest.mark.parametrize("doubt", DOUBTFUL)
def test_what_is_doubtful_is_worked_out_again_and_kept(tmp_path: Path, doubt: str) -> None:
    path = tmp_path / "kept.json"
    whole = _file(path, "key", {"words": ["one", "two"]})
    path.write_bytes(DOUBTFUL[doubt](whole))
    worked_out = []

    def work_out() -> object:
        worked_out.append(True)
        return {"words": ["one", "two"]}

    for times in (1, 1):
        assert kept(path, "key", work_out, lambda data: data["words"]) == ["one", "two"]
        assert len(worked_out) == times
    assert path.read_bytes() == whole


def test_a_folder_in_its_place_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "kept.json"
    (path / "in it").mkdir(parents=True)
    assert kept(path, "key", lambda: [1], lambda data: data) == [1]
    assert (path / "in it").is_dir()


def test_it_is_kept_whole_for_the_user_alone(cache: Path) -> None:
    kept_book._load.cache_clear()
    kept_book.load()
    assert [each.name for each in cache.iterdir()] == ["book.json"]
    assert stat.S_IMODE((cache / "book.json").stat().st_mode) == 0o600
    assert stat.S_IMODE(cache.stat().st_mode) == 0o700
