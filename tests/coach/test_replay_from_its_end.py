"""`replay --end` with `--turns` or `--steps` begins with that end, not with the first."""

import re
from pathlib import Path

from click.testing import CliRunner

from tests.coach.games import Told, bowl
from voicecoach.commands import replay
from voicecoach.head.values import Score


def three_ends(path: Path) -> Path:
    told = Told()
    for end in (1, 2, 3):
        if end > 1:
            told.next_end(end)
        told.rested(bowl("ours", 1, 0.1 * end, 25.0), heard=f"ours in end {end}")
        told.finished(Score(ours=end, ends=end), "ours", 1)
    return told.write(path)


def printed(path: Path, *options: str, typed: str = "") -> str:
    ran = CliRunner().invoke(replay.command, [str(path), *options], input=typed, standalone_mode=False)
    assert ran.exit_code == 0, ran.exception
    return ran.stdout


def test_the_turns_of_an_end_begin_with_its_first(tmp_path: Path) -> None:
    path = three_ends(tmp_path / "game.jsonl")
    assert re.findall("Heard: (.*)", printed(path, "--end", "3", "--turns")) == [
        "next end",
        "ours in end 3",
        "end finished",
    ]
    assert re.findall("^End .*", printed(path, "--end", "2", "--turns"), re.MULTILINE) == ["End 2"]
    assert printed(path, "--turns").count("Heard: ") == 8


def test_the_steps_of_an_end_begin_with_its_first(tmp_path: Path) -> None:
    path = three_ends(tmp_path / "game.jsonl")
    said = printed(path, "--end", "3", "--steps", typed="next\nback\nback\nstop\n")
    assert said.startswith("3 moments.")
    assert re.findall("Heard: (.*)", said) == ["next end", "ours in end 3", "next end"]
    assert "There is no moment further that way." in said
