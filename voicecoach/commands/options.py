"""Options that several commands have. Nothing slow is imported here."""

from pathlib import Path

import click

given_file = click.Path(exists=True, dir_okay=False, path_type=Path)
"""A file to be read. One that isn't there is wrong usage, whichever command it was given to."""
given_name = click.Path(exists=True, dir_okay=False)
"""The same, with its name kept exactly as it was given."""
journal_argument = click.argument("file", metavar="JOURNAL", type=given_file)
journal_option = click.option(
    "--journal", type=click.Path(dir_okay=False, path_type=Path), help="Keep the session in this file."
)
game_option = click.option("--game", type=given_file, help="How the game is played, a YAML file.")
log_option = click.option(
    "--log",
    type=click.Path(dir_okay=False, path_type=Path),
    help="Write to this file what was heard and what came of it, for a complaint: words, no sound.",
)
profile_option = click.option("--profile", type=given_file, help="The pair's profile, a YAML file.")
