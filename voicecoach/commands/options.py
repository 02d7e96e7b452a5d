"""Options that several commands have; whatever is slow to import is left out of here."""

from pathlib import Path

import click

journal_option = click.option(
    "--journal", type=click.Path(dir_okay=False, path_type=Path), help="Keep the session in this file."
)
game_option = click.option(
    "--game", type=click.Path(dir_okay=False, path_type=Path), help="How the game is played, a YAML file."
)
log_option = click.option(
    "--log",
    type=click.Path(dir_okay=False, path_type=Path),
    help="Write to this file what was heard and what came of it, for a complaint: words, no sound.",
)
profile_option = click.option(
    "--profile", type=click.Path(dir_okay=False, path_type=Path), help="The pair's profile, a YAML file."
)
