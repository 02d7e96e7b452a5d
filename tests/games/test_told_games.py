"""Each game told as typed notes, and gone through again."""

from tests.games.going_through import GoneThrough
from tests.games.telling import Game


class TestTold(GoneThrough):
    """Every game in turn: the fixture `game` of this folder."""

    def test_what_was_typed_is_kept_as_it_was_typed(self, game: Game) -> None:
        assert [turn["heard"] for turn in game.turns] == [step.say for step in game.story.steps]
        assert {turn["source"] for turn in game.turns} == {"typed"}
