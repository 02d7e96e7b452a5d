"""`voicecoach laws`: the laws that the program goes by."""

import click

from voicecoach.phrasebook.laws import edition, laws
from voicecoach.printed import put


@click.command("laws", short_help="The laws that the program goes by.")
def command() -> None:
    """Print the laws of the game that the program goes by, one a line, in its own words.

    Each line names the law's number in the World Bowls Laws of the Sport of Bowls, and the edition that
    it was taken from. An umpire's book is the authority; this says what the program asks about and why.
    """
    for law in laws():
        put(f"Law {law.number} ({edition(law)}): {law.line}")
