"""The help of every command, its example, and the shell's completion."""

import os
import shlex
import subprocess
import sys
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from voicecoach.__main__ import COMMANDS, EXAMPLE_OF, EXAMPLES, voicecoach

TAKEN_UP = [line for line in EXAMPLES.splitlines() if line.startswith("voicecoach ")]
PROGRAM = Path(sys.executable).with_name("voicecoach")


def called(example: str) -> tuple[click.Command, list[str]]:
    """The command or subcommand that an example calls, and the rest of its words."""
    program, name, *words = shlex.split(example)
    assert program == "voicecoach"
    command = voicecoach.get_command(click.Context(voicecoach), name)
    assert command is not None
    while isinstance(command, click.Group) and words and words[0] in command.commands:
        command = command.commands[words.pop(0)]
    return command, words


def options(command: click.Command) -> set[str]:
    """Every spelling of every option that it takes."""
    return {each for param in command.params for each in (*param.opts, *param.secondary_opts)} | {"--help"}


def test_every_command_has_an_example_and_every_example_its_command() -> None:
    assert EXAMPLE_OF.keys() == COMMANDS.keys()
    assert all(shlex.split(example)[1] == name for name, example in EXAMPLE_OF.items())


@pytest.mark.parametrize("name", COMMANDS)
def test_the_help_of_a_command_ends_with_its_example(name: str) -> None:
    done = CliRunner().invoke(voicecoach, [name, "--help"])
    assert done.exit_code == 0, done.output
    assert done.output.startswith(f"Usage: voicecoach {name}")
    assert done.output.rstrip().splitlines()[-1].strip() == EXAMPLE_OF[name]


def test_the_help_of_all_lists_each_command() -> None:
    done = CliRunner().invoke(voicecoach, ["--help"])
    assert done.exit_code == 0
    assert [name for name in COMMANDS if f"\n  {name} " not in done.output] == []
    assert [example for example in TAKEN_UP if example not in done.output] == []


@pytest.mark.parametrize("example", [*EXAMPLE_OF.values(), *TAKEN_UP])
def test_the_options_of_an_example_are_options_of_its_command(example: str) -> None:
    command, words = called(example)
    used = {word.partition("=")[0] for word in words if word.startswith("-")}
    assert used <= options(command)


@pytest.mark.parametrize("example", [*EXAMPLE_OF.values(), *TAKEN_UP])
def test_an_example_is_taken_as_it_stands(
    example: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    command, words = called(example)
    for word in words:
        if Path(word).suffix:
            Path(word).touch()
    context = command.make_context(command.name, words)  # reads the words, and calls nothing
    if isinstance(command, click.Group) and not command.invoke_without_command:
        raise AssertionError(f"{example} lacks a subcommand")
    assert context.args == []


def complete(**environment: str) -> str:
    done = subprocess.run(
        [PROGRAM],
        env={**os.environ, **environment},
        capture_output=True,
        text=True,
        check=False,
        timeout=1_200,
    )
    assert "Traceback" not in done.stderr
    return done.stdout


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_the_shell_is_given_a_script_for_completion(shell: str) -> None:
    script = complete(_VOICECOACH_COMPLETE=f"{shell}_source")
    assert f"_VOICECOACH_COMPLETE={shell}_complete" in script


@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        ("voicecoach li", ["listen"]),
        ("voicecoach re", ["replay", "report"]),
        ("voicecoach listen --mic", ["--microphone"]),
        ("voicecoach profile s", ["set", "show"]),
    ],
)
def test_what_was_begun_is_completed(typed: str, offered: list[str]) -> None:
    words = {"COMP_WORDS": typed, "COMP_CWORD": str(len(typed.split()) - 1)}
    completions = complete(_VOICECOACH_COMPLETE="bash_complete", **words).splitlines()
    assert sorted(each.partition(",")[2] for each in completions) == offered
