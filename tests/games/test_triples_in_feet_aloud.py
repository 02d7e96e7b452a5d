"""The triples in feet and inches, told by voice."""

from tests.games.aloud import ToldAloud

NAME = "triples_in_feet"


class TestTriplesInFeetAloud(ToldAloud):
    """Everything is said of the fixture `heard`."""
