"""The windy game of singles, told by voice."""

from tests.games.aloud import ToldAloud

NAME = "windy_singles"


class TestWindySinglesAloud(ToldAloud):
    """Everything is said of the fixture `heard`."""
