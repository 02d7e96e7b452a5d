"""Files that commands are given: missing ones, the journal itself, and what a person wrote wrongly."""

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from voicecoach.__main__ import main, voicecoach
from voicecoach.commands.before import read_club
from voicecoach.conversation import Conversation
from voicecoach.errors import DataProblem, Problem
from voicecoach.game_file import read_game
from voicecoach.hear.values import Heard
from voicecoach.personal import read_profile

FIRST = "our first, one metre, two o'clock"


def run(*words: str | Path) -> Result:
    return CliRunner().invoke(voicecoach, [str(word) for word in words], standalone_mode=False)


def journal_of(path: Path, *notes: str) -> Path:
    with Conversation(path) as conversation:
        for note in notes:
            assert conversation.hear(Heard(text=note)).outcome == "noted", note
    return path


@pytest.mark.parametrize(
    "words",
    [
        "replay nosuch",
        "walk nosuch",
        "report nosuch -o page.html",
        "export nosuch",
        "eye nosuch",
        "hear nosuch.wav",
        "hear --game nosuch some.wav",
        "tell --profile nosuch x",
        "tell --game nosuch x",
        "listen --profile nosuch",
        "before --club nosuch",
        "before --profile nosuch",
        "practice calling --profile nosuch",
    ],
)
def test_a_file_that_is_not_there_is_wrong_usage_whichever_command_it_is_named_to(
    words: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "some.wav").touch()
    monkeypatch.setattr("sys.argv", ["voicecoach", *words.split()])
    with pytest.raises(SystemExit) as left:
        main()
    told = capsys.readouterr().err
    assert left.value.code == 2
    assert "nosuch" in told
    assert "does not exist" in told
    assert "Errno" not in told
    assert [path.name for path in tmp_path.iterdir()] == ["some.wav"]


@pytest.mark.parametrize("option", ["--wav", "--story"])
def test_a_replay_is_never_written_over_its_journal(tmp_path: Path, option: str) -> None:
    path = journal_of(tmp_path / "game.jsonl", FIRST)
    content = path.read_bytes()
    for target in (path, tmp_path / "." / "game.jsonl"):
        ran = run("replay", path, option, target)
        assert isinstance(ran.exception, Problem)
        assert "is the journal itself" in str(ran.exception)
    assert path.read_bytes() == content


@pytest.mark.parametrize(
    "options",
    [["--turns", "--json"], ["--steps", "--json"], ["--turns", "--steps"], ["--turns", "--picture"]],
)
def test_of_options_that_do_not_go_together_none_is_passed_over_in_silence(
    tmp_path: Path, options: list[str]
) -> None:
    ran = run("replay", journal_of(tmp_path / "game.jsonl", FIRST), *options)
    assert f"{options[0]} and {options[1]} don't go together" in str(ran.exception)
    assert not ran.stdout


@pytest.mark.parametrize("command", [["replay", "--json"], ["walk", "--json"]])
def test_a_last_end_without_bowls_says_where_the_end_before_it_is_read(
    tmp_path: Path, command: list[str]
) -> None:
    begun = journal_of(tmp_path / "game.jsonl", FIRST, "next end")
    said = "End 2 has no bowls yet. For the end before it: --end 1."
    assert said in run(*command, begun).stderr
    assert said not in run(*command, begun, "--end", "1").stderr
    assert said not in run(*command, begun, "--end", "2").stderr
    going_on = journal_of(tmp_path / "other.jsonl", FIRST, "next end", FIRST)
    assert "no bowls" not in run(*command, going_on).stderr


READERS = {"game": read_game, "profile": read_profile, "club's": read_club}


@pytest.mark.parametrize("what", READERS)
@pytest.mark.parametrize(
    ("text", "told"),
    [
        (b"- 1\n- 2\n", "must be names with their values"),
        (b"some words", "must be names with their values"),
        (b"colour: red\n", "there is no 'colour' in a "),
        (b"a: [\nb", "line 3, column 1"),
        (b"a: b: c", "line 1, column 5"),
        (b"a\x00b", "it isn't plain text"),
        (b"a\xff\xfeb", "it isn't plain text"),
    ],
)
def test_what_is_wrong_with_a_file_is_said_in_plain_words(
    tmp_path: Path, what: str, text: bytes, told: str
) -> None:
    path = tmp_path / "file.yaml"
    path.write_bytes(text)
    with pytest.raises(DataProblem) as problem:
        READERS[what](path)
    message = str(problem.value)
    assert told in message
    assert "file.yaml" in message
    assert what in message
    for jargon in ("byte string", "dictionary", "instance of", "Input should", "Errno", "codec"):
        assert jargon not in message


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("format: quads", "format: it must be 'singles', 'pairs', 'triples' or 'fours'"),
        ("rink_m: wide", "rink in metres: it must be a number"),
        ("ends: 2.5", "ends: it must be a whole number"),
        ("respot: maybe", "respot: it must be yes or no"),
    ],
)
def test_a_value_that_a_game_does_not_take_is_named_with_what_it_must_be(
    tmp_path: Path, line: str, told: str
) -> None:
    path = tmp_path / "game.yaml"
    path.write_text(line)
    with pytest.raises(DataProblem) as problem:
        read_game(path)
    assert told in str(problem.value)


@pytest.mark.parametrize(
    ("path", "told"), [("nosuch.yaml", "there is no such file"), (".", "it is a folder")]
)
def test_a_file_that_cannot_be_read_says_why_in_plain_words(tmp_path: Path, path: str, told: str) -> None:
    with pytest.raises(DataProblem, match=told):
        read_game(tmp_path / path)
