"""Names and files from anywhere: what is printed is only read, what is written is the user's alone."""

import os
import stat
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner

from tests.bench.fuzz_mutate import ODD
from voicecoach.__main__ import voicecoach
from voicecoach.coach.profile import Profile
from voicecoach.errors import DataProblem, Problem
from voicecoach.game_file import read_game
from voicecoach.personal import read_profile, write_profile
from voicecoach.printed import plain, plain_json
from voicecoach.speak.files import write_wav
from voicecoach.speak.values import Sound
from voicecoach.story import read_story
from voicecoach.whole_file import write_whole

MOVES = {chr(code) for code in (*range(7), 8, 9, *range(11, 32), *range(127, 160))}
"""Control characters (ISO 6429, memory), but for the line end and the bell."""
TURNS = set("\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


@pytest.fixture(params=[0o000, 0o022, 0o077], ids=oct)
def _umask(request: pytest.FixtureRequest) -> Iterator[None]:
    before = os.umask(request.param)
    yield
    os.umask(before)


def _told(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "voicecoach", *words],
        capture_output=True,
        check=False,
        text=True,
        errors="surrogateescape",
        env={**os.environ, "PYTHONUTF8": "1"},
    )


@pytest.mark.parametrize("odd", ODD, ids=range(len(ODD)))
def test_what_is_printed_moves_no_cursor_and_turns_no_line(odd: str) -> None:
    assert not set(plain(odd)) & (MOVES | TURNS)
    assert not set(plain_json(odd)) & (MOVES | TURNS)
    plain(odd).encode()


def test_ordinary_names_are_printed_as_they_are() -> None:
    for name in (
        "Zo\u00eb O'Neill",
        "\u05e9\u05dc\u05d5\u05dd",
        "\U0001f469\u200d\U0001f9af",
        "Ng\u0169g\u0129",
    ):
        assert plain(name) == name


def test_notes_and_names_that_are_no_text_are_answered_and_journalled(tmp_path: Path) -> None:
    journal = tmp_path / "\x1b[2J\u202etoday \U0001f3c6.jsonl"
    told = _told(
        "tell", "--journal", str(journal), "our first \udcff\x1b[2J a metre at two\nNoted.", "1" * 5000
    )
    assert told.returncode == 0, told.stderr
    assert "Traceback" not in told.stderr
    assert not set(told.stdout) & (MOVES | TURNS)
    assert told.stdout.count("\n") == 4  # two lines for each note, whatever it holds
    again = _told("replay", str(journal), "--turns", "--end", "9")
    assert again.returncode != 0
    assert not set(again.stdout + again.stderr) & (MOVES | TURNS)


def test_a_command_that_does_not_exist_is_named_without_its_tricks() -> None:
    told = _told("tell", "--\x1b[2J\u202e")
    assert told.returncode == 2
    assert not set(told.stderr) & (MOVES | TURNS)


@pytest.mark.parametrize("name", ["pace", "rate", "aim", "bowl"])
@pytest.mark.parametrize("value", ["[", "2026-99-99", "nan", "!!python/name:os.system", "\x1b[2J", "1e999"])
def test_a_profile_refuses_in_words_what_is_no_figure(tmp_path: Path, name: str, value: str) -> None:
    ran = CliRunner().invoke(voicecoach, ["profile", "--profile", str(tmp_path / "p"), "set", name, value])
    assert isinstance(ran.exception, Problem), ran.exception
    assert not (tmp_path / "p").exists()


@pytest.mark.parametrize("player", ["\x1b[2JMary", "a\rb", "a\u2028b", "\ud800"])
def test_a_players_name_has_no_control_characters(player: str) -> None:
    with pytest.raises(ValueError, match="player"):
        Profile(player=player)


def test_a_players_name_with_markup_comes_back_as_it_was(tmp_path: Path) -> None:
    for player in (
        "<b>Mary</b>",
        "../../etc",
        "\u05e9\u05dc\u05d5\u05dd",
        "\U0001f3c6",
        "!!int '1'",
        "*a",
        "on",
    ):
        write_profile(Profile(player=player), tmp_path / "profile.yaml")
        assert read_profile(tmp_path / "profile.yaml").player == player


@pytest.mark.parametrize("audio", ["../x.wav", "/etc/passwd", "a/b.wav", "..", "C:\\x.wav", "a\x00b"])
def test_a_story_names_only_recordings_beside_it(tmp_path: Path, audio: str) -> None:
    path = tmp_path / "story.yaml"
    shown = audio.replace("\\", "\\\\").replace("\x00", "\\0")
    path.write_text(f'title: x\nsteps:\n  - {{say: hello, outcome: dropped, audio: "{shown}"}}\n')
    with pytest.raises(DataProblem, match="audio"):
        read_story(path)


def test_a_figure_that_is_none_is_no_setting(tmp_path: Path) -> None:
    path = tmp_path / "game.yaml"
    for figure in (".nan", ".inf", "1e999", "0x_", "2026-99-99"):
        path.write_text(f"mat_m: {figure}\n")
        with pytest.raises(DataProblem):
            read_game(path)


@pytest.mark.usefixtures("_umask")
def test_files_are_made_for_the_user_alone_whatever_the_umask(tmp_path: Path) -> None:
    runner = CliRunner()
    journal = tmp_path / "game.jsonl"
    runner.invoke(voicecoach, ["tell", "--journal", str(journal), "our first a metre at two"])
    runner.invoke(voicecoach, ["replay", str(journal), "--story", str(tmp_path / "story.yaml")])
    runner.invoke(voicecoach, ["export", str(journal), "-o", str(tmp_path / "table.csv")])
    runner.invoke(voicecoach, ["report", str(journal), "-o", str(tmp_path / "page.html"), "--silent"])
    write_profile(Profile(player="Mary"), tmp_path / "profile.yaml")
    write_wav(Sound(samples=np.zeros(100, np.float32), rate_hz=16_000), tmp_path / "said.wav")
    made = {path.name: stat.S_IMODE(path.stat().st_mode) for path in tmp_path.iterdir()}
    assert {"game.jsonl", "story.yaml", "table.csv", "page.html", "profile.yaml", "said.wav"} <= set(made)
    assert set(made.values()) == {0o600}, made


def test_a_device_is_never_replaced_by_a_file(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    with pytest.raises(Problem, match="isn't a file"):
        write_whole(pipe, ["x"])
    with pytest.raises(Problem, match="isn't a file"):
        write_wav(Sound(samples=np.zeros(1, np.float32), rate_hz=16_000), pipe)
    assert pipe.is_fifo()
