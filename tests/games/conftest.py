"""Each game, told once; a module that names one as its NAME has it told by voice, too."""

from functools import partial
from pathlib import Path

import pytest

from tests.games.telling import GAMES, Game, told, told_aloud
from voicecoach.speak.mouth import Mouth


@pytest.fixture(scope="session")
def games(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Game]:
    folder = tmp_path_factory.mktemp("games")
    return {name: told(name, folder / f"{name}.jsonl") for name in GAMES}


@pytest.fixture(params=sorted(GAMES))
def game(request: pytest.FixtureRequest, games: dict[str, Game]) -> Game:
    """One game after another."""
    return games[request.param]


@pytest.fixture(scope="module")
def typed(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Game:
    """The module's game, typed."""
    return told(request.module.NAME, tmp_path_factory.mktemp("typed") / "game.jsonl")


@pytest.fixture(scope="module")
def heard(request: pytest.FixtureRequest, model_path: Path, tmp_path_factory: pytest.TempPathFactory) -> Game:
    """The module's game, every step of it spoken and heard by the recogniser."""
    assert model_path.is_dir()
    return told_aloud(request.module.NAME, tmp_path_factory.mktemp("aloud") / "game.jsonl")


@pytest.fixture
def nobody_listens(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is spoken is printed only, whatever headphones there are: these tests read it."""
    for command in ("walk", "replay"):
        monkeypatch.setattr(f"voicecoach.commands.{command}.Mouth", partial(Mouth, silent=True))
