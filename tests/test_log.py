"""`--log`: what is needed to find out what went wrong, and nothing unless it was asked for."""

import json
import os
import stat
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from voicecoach import log_file
from voicecoach.conversation import Conversation
from voicecoach.hear.values import Heard, Hypothesis, Word
from voicecoach.places import scenarios

FOLDER = scenarios() / "first_end"
RECORDINGS = [str(path) for path in sorted(FOLDER.glob("*.wav"))[:6]]
OUTCOMES = {"noted", "asked", "answered", "refused", "dropped"}
NOTE = "our first, a metre, two o'clock"


def voicecoach(*words: str, folder: Path) -> "subprocess.CompletedProcess[str]":
    return subprocess.run(
        [sys.executable, "-m", "voicecoach", *words],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(Path(log_file.__file__).parents[1])},
        capture_output=True,
        text=True,
        check=False,
        timeout=1_200,
    )


def lines(path: Path) -> list[dict[str, Any]]:
    return [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()]


@pytest.fixture(scope="module")
def logged(model_path: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[dict[str, Any]]]:
    """The log of some recordings, and what was printed of them."""
    folder = tmp_path_factory.mktemp("log")
    done = voicecoach("hear", *RECORDINGS, "--json", "--log", "log", folder=folder)
    assert done.returncode == 0, done.stderr
    return folder / "log", [json.loads(line) for line in done.stdout.splitlines()]


def test_what_was_heard_is_logged_so_fully_that_it_comes_to_the_same_again(
    logged: tuple[Path, list[dict[str, Any]]],
) -> None:
    log, printed = logged
    came_of_it = [
        (line["what"], line["number"], line["said"]) for line in lines(log) if line["what"] in OUTCOMES
    ]
    again = []
    with Conversation() as conversation:
        for line in lines(log):
            if line["what"] == "heard":
                heard = Heard.model_validate(line["heard"])
                lapsed = conversation.lapse(heard.started_s or 0.0)
                entries = [lapsed] if lapsed else []
                entries.append(conversation.hear(heard, speaker=line["speaker"]))
                again += [(e.outcome, e.number, [each.text for each in e.say]) for e in entries]
    assert again == came_of_it
    assert [what for what, _, _ in came_of_it] == [line["outcome"] for line in printed]
    assert [said for _, _, said in came_of_it] == [line["say"] for line in printed]
    assert len(printed) >= len(RECORDINGS)


def test_an_utterance_is_logged_with_all_its_doubt(tmp_path: Path) -> None:
    log = tmp_path / "log"
    heard = Heard(
        text="our first a metre two o'clock",
        words=(Word(text="our", confidence=0.7123456789), Word(text="first", confidence=1.0)),
        readings=(Hypothesis(decode="sentences", text="our third a metre two o'clock", weight=1 / 3),),
        source="micro\u2028phone",
        started_s=1.1,
        ended_s=3.3,
        unheard_s=0.1,
        link="noisy",
        cut=True,
    )
    with log_file.logging_to(log), Conversation() as conversation:
        conversation.hear(heard, speaker="player")
    (line,) = [line for line in lines(log) if line["what"] == "heard"]
    assert Heard.model_validate(line["heard"]) == heard
    assert line["speaker"] == "player"


def test_a_log_begins_with_the_versions_and_the_options_and_holds_no_sound(
    logged: tuple[Path, list[dict[str, Any]]],
) -> None:
    log, _ = logged
    first = lines(log)[0]
    assert first["what"] == "begin"
    assert first["options"][0] == "hear"
    assert {"voicecoach", "vosk", "sounddevice"} <= first["versions"].keys()
    assert log.stat().st_size < 100_000


def test_a_log_is_for_the_user_alone(logged: tuple[Path, list[dict[str, Any]]]) -> None:
    assert stat.S_IMODE(logged[0].stat().st_mode) == 0o600


def test_a_log_goes_on_after_what_the_file_holds(tmp_path: Path) -> None:
    log = tmp_path / "log"
    for _ in range(2):
        assert voicecoach("tell", NOTE, "--log", "log", folder=tmp_path).returncode == 0
    assert [line["what"] for line in lines(log)] == ["begin", "heard", "noted"] * 2


def test_without_the_option_nothing_is_logged(tmp_path: Path) -> None:
    done = voicecoach("tell", NOTE, folder=tmp_path)
    assert done.returncode == 0
    assert done.stderr == ""
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("path", ["nowhere/log", "file/log"])
@pytest.mark.parametrize("command", ["tell", "hear"])
def test_a_log_that_cannot_be_written_is_refused_in_words(tmp_path: Path, path: str, command: str) -> None:
    (tmp_path / "file").touch()
    words = RECORDINGS[:1] if command == "hear" else [NOTE]
    done = voicecoach(command, *words, "--log", path, folder=tmp_path)
    assert done.returncode == 1
    assert done.stderr.startswith(f"The log {path} can't be written: its folder is not there.")
    assert "Traceback" not in done.stderr
    assert done.stdout == "", "nothing is done before it is refused"


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device here is always full")
def test_a_full_disk_stops_no_game(tmp_path: Path) -> None:
    done = voicecoach("tell", NOTE, "--log", "/dev/full", folder=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    assert "Noted. Our first" in done.stdout


def test_what_ends_a_session_is_logged_with_its_traceback(tmp_path: Path) -> None:
    log = tmp_path / "log"

    def ends_by(error: Exception) -> None:
        with log_file.logging_to(log):
            raise error

    with pytest.raises(RuntimeError, match="no words"):
        ends_by(RuntimeError("no words"))
    last = lines(log)[-1]
    assert last["what"] == "ended by an error"
    assert "RuntimeError: no words" in last["traceback"]
    log_file.note("afterwards")
    assert lines(log)[-1] == last, "nobody asked for that any more"
