"""A small part of `python -m tests.bench.fuzz`, with the same seeds every time."""

import subprocess
import sys
from pathlib import Path

import pytest

from tests.bench import fuzz_files, fuzz_notes, fuzz_waves
from tests.bench.fuzz_watch import Overstepped, only


@pytest.fixture(scope="module", autouse=True)
def _read_already() -> None:
    """What the program reads of its own on first use is read before the watch begins."""
    fuzz_notes.run(20, seed=1)


def test_no_note_brings_the_program_down_or_makes_it_touch_a_file_or_run_anything() -> None:
    with only():
        came = fuzz_notes.run(1_500, seed=2)
    assert set(came) == {"noted", "asked", "answered", "refused", "dropped"}


def test_no_settings_profile_story_or_manifest_brings_the_program_down(tmp_path: Path) -> None:
    came = fuzz_files.run(200, seed=3, folder=tmp_path)
    for kind in ("game", "profile", "story", "manifest"):
        assert came[f"{kind} taken"] > 5, came
        assert came[f"{kind} refused"] > 50, came


def test_no_recording_brings_the_program_down(tmp_path: Path) -> None:
    came = fuzz_waves.run(300, seed=4, folder=tmp_path)
    assert came["heard"] > 50, came
    assert came["refused"] > 50, came


def test_the_watch_stops_a_file_that_was_not_named_and_a_program(tmp_path: Path) -> None:
    with only(tmp_path):
        (tmp_path / "named").write_text("")
        with pytest.raises(Overstepped):
            (tmp_path.parent / "other").write_text("")
        with pytest.raises(Overstepped):
            Path("/etc/hostname").read_text()
        with pytest.raises(Overstepped):
            subprocess.run([sys.executable, "-c", ""], check=False)
    assert not (tmp_path.parent / "other").exists()
