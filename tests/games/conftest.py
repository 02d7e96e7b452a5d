"""Each game, told once."""

from functools import partial

import pytest

from tests.games.telling import GAMES, Game, told
from voicecoach.speak.mouth import Mouth


@pytest.fixture(scope="session")
def games(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Game]:
    folder = tmp_path_factory.mktemp("games")
    return {name: told(name, folder / f"{name}.jsonl") for name in GAMES}


@pytest.fixture(params=sorted(GAMES))
def game(request: pytest.FixtureRequest, games: dict[str, Game]) -> Game:
    """One game after another."""
    return games[request.param]


@pytest.fixture
def nobody_listens(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is spoken is printed only, whatever headphones there are: these tests read it."""
    for command in ("walk", "replay"):
        monkeypatch.setattr(f"voicecoach.commands.{command}.Mouth", partial(Mouth, silent=True))
