"""The command line: `voicecoach` or `python -m voicecoach`."""

import gc
import importlib
import io
import sys

import click

from voicecoach.errors import Problem
from voicecoach.leaving import leave
from voicecoach.printed import put

COMMANDS = {
    "before": "Before play: a round with the player, confirmed step by step.",
    "listen": "Live: hear the director, confirm each note, read the head to the player.",
    "hear": "The same from recordings, in order.",
    "tell": "The same from typed notes.",
    "replay": "Speak the head as it was at any moment of a journal.",
    "report": "Make a page of a game: drawings, the read-backs to read and hear, the figures.",
    "export": "Make a table of journals: one row for each bowl at each moment.",
    "walk": "Walk up to the head of a journal, stop by stop.",
    "practice": "Practise calling a head, or keeping a picture of one, without a green.",
    "eye": "Compare a director's calls with the tape.",
    "laws": "Print the laws that the program goes by.",
    "profile": "Show or change what a pair keeps on this device.",
    "check": "Try the microphone, headphones, model and voice, and say what to do.",
    "setup": "Fetch the speech model, once.",
    "demo": "Hear an invented end from recordings and read its head back.",
}
"""Each command and its line of help; its module is imported only when it is used."""

EXAMPLE_OF = {
    "before": "voicecoach before --club club.yaml",
    "listen": "voicecoach listen --journal today.jsonl",
    "hear": "voicecoach hear first.wav second.wav --journal today.jsonl",
    "tell": 'voicecoach tell "our second, eighty centimetres, two o\'clock" "who holds"',
    "replay": "voicecoach replay today.jsonl --end 3",
    "report": "voicecoach report today.jsonl --output today.html",
    "export": "voicecoach export today.jsonl --output today.csv",
    "walk": "voicecoach walk today.jsonl --end 3",
    "practice": "voicecoach practice calling --bowls 4",
    "eye": "voicecoach eye today.jsonl",
    "laws": "voicecoach laws",
    "profile": "voicecoach profile set pace 0.7",
    "check": "voicecoach check --microphone headset",
    "setup": "voicecoach setup --model vosk-model-small-en-us-0.15.zip",
    "demo": "voicecoach demo",
}
"""An example of each, shown at the end of its help."""

EXAMPLES = """Examples, one a line:

\b
voicecoach tell "our second, eighty centimetres, two o'clock" "who holds"
voicecoach hear first.wav second.wav --json
voicecoach listen --journal today.jsonl
voicecoach replay today.jsonl --end 3

Exit status: 0 done, 1 failed, 2 wrong usage, 3 no microphone or headphones,
4 speech model missing, 5 data damaged beyond repair."""


class Commands(click.Group):
    """Loads a command's module when it is asked for, so that help and start-up are quick."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The commands in the order of the table."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command, imported now; None when there is none of that name."""
        if cmd_name not in COMMANDS:
            return None
        gc.disable()  # what is imported stays: to look for what may go among it takes a tenth of a start
        try:
            command = importlib.import_module(f"voicecoach.commands.{cmd_name}").command
        finally:
            gc.freeze()
            gc.enable()
        assert isinstance(command, click.Command)
        command.epilog = f"Example:\n\n\b\n{EXAMPLE_OF[cmd_name]}"
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The table itself, without importing anything."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


def _print_version(ctx: click.Context, _param: click.Parameter, wanted: bool) -> None:
    if wanted:
        package = importlib.import_module("voicecoach")
        click.echo(f"voicecoach {package.__version__}")
        ctx.exit()


@click.command(cls=Commands, epilog=EXAMPLES)
@click.option(
    "--version",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=_print_version,
    help="Show the version.",
)
def voicecoach() -> None:
    """The head of a lawn bowls end, in words: keep it from spoken notes, read it back."""


def main() -> None:
    """Run the command line; every problem becomes one plain message and an exit status."""
    if isinstance(sys.stdin, io.TextIOWrapper):
        sys.stdin.reconfigure(errors="replace")  # bytes that aren't text must not end a session
    try:
        status = voicecoach.main(standalone_mode=False)
    except click.ClickException as problem:
        told = io.StringIO()
        problem.show(told)
        put(told.getvalue().rstrip("\n"), err=True)
        leave(problem.exit_code)
    except Problem as problem:
        put(str(problem), err=True)
        leave(problem.exit_status)
    except ImportError as problem:
        put(f"A part of the program can't be loaded: {problem}. Set it up again: make demo", err=True)
        leave(1)
    except (click.Abort, KeyboardInterrupt):
        click.echo("Stopped.", err=True)
        leave(1)
    leave(status if isinstance(status, int) else 0)


if __name__ == "__main__":
    main()
