"""The model is put in its place whole and checked, or not at all."""

import signal
import subprocess
import sys
import tarfile
import time
from pathlib import Path
from random import Random

import pytest

from tests.setup.conftest import CONTENT, pack, write
from voicecoach import model_store, places
from voicecoach.errors import ModelProblem
from voicecoach.model_store import downloads
from voicecoach.model_store.manifest import faults, load


def _is_whole(store: Path) -> bool:
    return not faults(store / "tiny-model", load(), thorough=True)


def _holds_nothing_but_locks(store: Path) -> bool:
    return {path.name for path in store.iterdir()} <= {"setup.lock"}


def test_a_named_folder_is_taken(store: Path, tmp_path: Path) -> None:
    folder = write(tmp_path / "given", CONTENT)
    assert model_store.fetch(str(folder)) == store / "tiny-model" == model_store.model_path()
    assert _is_whole(store)


def test_a_folder_around_the_model_will_do(store: Path, tmp_path: Path) -> None:
    write(tmp_path / "given" / "deep" / "tiny-model", CONTENT)
    model_store.fetch(str(tmp_path / "given"))
    assert _is_whole(store)


@pytest.mark.parametrize("inside", ["", "tiny-model/", "assets/model-en-us/"])
def test_a_zip_is_taken_wherever_the_model_lies_in_it(store: Path, tmp_path: Path, inside: str) -> None:
    model_store.fetch(str(pack(tmp_path / "given.zip", inside, CONTENT)))
    assert _is_whole(store)


def test_a_tar_archive_is_taken(store: Path, tmp_path: Path) -> None:
    folder = write(tmp_path / "tiny-model", CONTENT)
    with tarfile.open(tmp_path / "given.tar.gz", "w:gz") as archive:
        archive.add(folder, "tiny-model")
    model_store.fetch(str(tmp_path / "given.tar.gz"))
    assert _is_whole(store)


def test_the_environment_names_a_source_too(
    store: Path, aar: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("VOICECOACH_MODEL", str(aar))
    model_store.fetch()
    assert _is_whole(store)
    assert f"comes from what you named, {aar}" in capsys.readouterr().err


@pytest.mark.parametrize("by", ["option", "environment"])
def test_where_nothing_is_at_the_name_set_up_stops_and_asks_nobody_else(
    store: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, by: str
) -> None:
    for source in ("from_home", "from_maven"):
        monkeypatch.setattr(downloads, source, lambda *_, **__: pytest.fail("asked"))
    nosuch = str(tmp_path / "nosuch")
    if by == "environment":
        monkeypatch.setenv("VOICECOACH_MODEL", nosuch)
    with pytest.raises(ModelProblem, match=f"There is nothing at {nosuch}") as told:
        model_store.fetch(nosuch if by == "option" else None)
    assert told.value.exit_status == 2
    assert not store.exists() or _holds_nothing_but_locks(store)


@pytest.mark.parametrize("tampered", [name for name in CONTENT if name != "README"])
def test_a_file_that_does_not_match_is_refused_and_named(store: Path, tmp_path: Path, tampered: str) -> None:
    changed = bytes([CONTENT[tampered][0] ^ 1]) + CONTENT[tampered][1:]
    with pytest.raises(ModelProblem, match=f"refused: {tampered} doesn't match"):
        model_store.fetch(str(pack(tmp_path / "given.zip", "", {**CONTENT, tampered: changed})))
    assert _holds_nothing_but_locks(store)


def test_a_missing_file_is_refused_and_named(store: Path, tmp_path: Path) -> None:
    content = {name: data for name, data in CONTENT.items() if name != "graph/Gr.fst"}
    with pytest.raises(ModelProblem, match=r"refused: graph/Gr\.fst is missing"):
        model_store.fetch(str(pack(tmp_path / "given.zip", "", content)))
    assert _holds_nothing_but_locks(store)


def test_a_longer_file_is_refused_without_reading_all_of_it(store: Path, tmp_path: Path) -> None:
    content = {**CONTENT, "graph/Gr.fst": b"0" * 50_000_000}
    with pytest.raises(ModelProblem, match=r"graph/Gr\.fst doesn't match"):
        model_store.fetch(str(pack(tmp_path / "given.zip", "", content)))


@pytest.mark.parametrize("name", ["../escaped", "/escaped", "graph/../../escaped", "extra.txt"])
def test_what_the_manifest_does_not_list_is_left_out_and_named(
    store: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str
) -> None:
    model_store.fetch(str(pack(tmp_path / "given.zip", "", {**CONTENT, name: b"?"})))
    assert f"{name} isn't in the manifest and was left out" in capsys.readouterr().err
    written = {
        path.relative_to(store / "tiny-model").as_posix() for path in (store / "tiny-model").rglob("*.*")
    }
    assert written <= set(CONTENT)
    assert not list(tmp_path.rglob("escaped"))


def test_another_edition_of_the_papers_is_left_out_and_the_data_taken(
    store: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    model_store.fetch(str(pack(tmp_path / "given.zip", "", {**CONTENT, "README": b"Another edition\n"})))
    assert _is_whole(store)
    assert not (store / "tiny-model" / "README").exists()
    assert "README doesn't match" in capsys.readouterr().err


def test_a_refused_source_leaves_the_model_that_is_there(store: Path, aar: Path, tmp_path: Path) -> None:
    model_store.fetch(str(aar))
    with pytest.raises(ModelProblem):
        model_store.fetch(str(pack(tmp_path / "given.zip", "", {**CONTENT, "am/final.mdl": b"bad"})))
    assert _is_whole(store)


def test_a_model_that_is_whole_stays(store: Path, aar: Path) -> None:
    model_store.fetch(str(aar))
    before = (store / "tiny-model").stat()
    model_store.fetch()
    assert (store / "tiny-model").stat().st_ino == before.st_ino


def test_a_damaged_model_is_noticed_and_replaced(store: Path, aar: Path) -> None:
    model_store.fetch(str(aar))
    (store / "tiny-model" / "am" / "final.mdl").write_bytes(b"torn")
    with pytest.raises(ModelProblem, match=r"isn't complete: am/final\.mdl has 4 bytes"):
        model_store.model_path()
    model_store.fetch(str(aar))
    assert _is_whole(store)


@pytest.mark.parametrize("content", [b"", b"no archive", b"PK\x03\x04 torn", b"\x1f\x8b torn"])
def test_something_else_than_an_archive_is_refused_in_words(
    store: Path, tmp_path: Path, content: bytes
) -> None:
    (tmp_path / "given").write_bytes(content)
    with pytest.raises(ModelProblem, match=r"neither a folder, nor a zip|the archive is damaged"):
        model_store.fetch(str(tmp_path / "given"))


def test_an_archive_cut_at_any_byte_is_refused_in_words(store: Path, aar: Path, tmp_path: Path) -> None:
    whole = aar.read_bytes()
    for length in range(0, len(whole), 97):
        (tmp_path / "cut.aar").write_bytes(whole[:length])
        with pytest.raises(ModelProblem):
            model_store.fetch(str(tmp_path / "cut.aar"), tell=lambda line: None)
    assert _holds_nothing_but_locks(store)


def test_an_archive_with_bytes_changed_is_refused_in_words_or_still_right(
    store: Path, aar: Path, tmp_path: Path
) -> None:
    random = Random(7)
    refused = 0
    for _ in range(400):
        changed = bytearray(aar.read_bytes())
        for _ in range(random.randint(1, 4)):
            changed[random.randrange(len(changed))] = random.randrange(256)
        (tmp_path / "changed.aar").write_bytes(changed)
        try:
            model_store.fetch(str(tmp_path / "changed.aar"), tell=lambda line: None)
        except ModelProblem:
            refused += 1
        else:
            assert _is_whole(store)
    assert refused > 200


def test_a_killed_set_up_leaves_nothing_half_done(store: Path, tmp_path: Path, aar: Path) -> None:
    """The set-up is killed while it unpacks: there is no model then, and the next set-up clears up."""
    script = (
        "import sys, time\n"
        "from pathlib import Path\n"
        "from voicecoach import model_store, places\n"
        "from voicecoach.model_store import unpack\n"
        f"places.models = lambda: Path({str(store)!r})\n"
        f"places.manifest = lambda: Path({str(tmp_path / 'manifest.json')!r})\n"
        "copy = unpack._copy\n"
        "def slowly(*arguments):\n"
        "    result = copy(*arguments)\n"
        "    print('copied', flush=True)\n"
        "    time.sleep(30)\n"
        "    return result\n"
        "unpack._copy = slowly\n"
        f"model_store.fetch({str(aar)!r})\n"
    )
    with subprocess.Popen([sys.executable, "-c", script], stdout=subprocess.PIPE) as killed:
        assert killed.stdout is not None
        assert killed.stdout.readline() == b"copied\n"
        killed.send_signal(signal.SIGKILL)
    assert list(store.glob("partial-*/tiny-model/am/final.mdl"))
    with pytest.raises(ModelProblem, match="it isn't there"):
        model_store.model_path()
    model_store.fetch(str(aar))
    assert {path.name for path in store.iterdir()} <= {"setup.lock", "tiny-model"}


def test_two_set_ups_at_once_do_not_disturb_each_other(store: Path, tmp_path: Path, aar: Path) -> None:
    script = (
        "from pathlib import Path\n"
        "from voicecoach import model_store, places\n"
        f"places.models = lambda: Path({str(store)!r})\n"
        f"places.manifest = lambda: Path({str(tmp_path / 'manifest.json')!r})\n"
        f"for _ in range(20): model_store.fetch({str(aar)!r})\n"
    )
    both = [subprocess.Popen([sys.executable, "-c", script], stderr=subprocess.PIPE) for _ in range(2)]
    assert [process.communicate(timeout=1_200)[1].count(b"is ready") for process in both] == [20, 20]
    assert _is_whole(store)


def test_the_manifest_lists_the_model_that_was_fetched(model_path: Path) -> None:
    manifest = load()
    assert manifest.name == "vosk-model-small-en-us-0.15"
    assert manifest.licence == "Apache-2.0"
    # SHA-256 of com.alphacephei:vosk-model-en:0.3.45, type aar; downloaded and computed (read).
    assert manifest.maven.sha256 == "8a5792fccaf873b4745dbd1b3fe19d8a77a15898e806674020eea820424771cd"
    assert manifest.maven.artifact == "com.alphacephei:vosk-model-en:0.3.45:aar"
    assert not faults(model_path.parent / manifest.name, manifest, thorough=True)


def test_checking_the_whole_model_takes_under_two_seconds(model_path: Path) -> None:
    began = time.process_time()
    assert not model_store.wrong_with(model_path)
    assert time.process_time() - began < 2.0


def test_an_installed_program_keeps_its_model_in_the_users_data_folder(
    installed: Path, tmp_path: Path
) -> None:
    script = "from voicecoach import places; print(places.models(), places.manifest().is_file())"
    shown = subprocess.run(
        [sys.executable, "-c", script],
        cwd=tmp_path,
        env={"PYTHONPATH": str(installed), "XDG_DATA_HOME": str(tmp_path / "data")},
        capture_output=True,
        text=True,
        check=True,
    )
    assert shown.stdout.split() == [str(tmp_path / "data" / "voicecoach" / "models"), "True"]
    root = places.checkout()
    assert root is not None
    assert places.models() == root / "models"
