"""The pairs in the rain, told by voice."""

from tests.games.aloud import ToldAloud

NAME = "rainy_pairs"


class TestRainyPairsAloud(ToldAloud):
    """Everything is said of the fixture `heard`."""
