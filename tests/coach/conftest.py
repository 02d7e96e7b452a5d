"""The report of a game, and a browser to open it in."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner
from playwright.sync_api import Browser, Page, sync_playwright

from tests.bench.page.games import pairs
from tests.coach.browsing import NASTY, opened_page
from tests.coach.games import two_ends
from tests.coach.oddities import odd_game
from voicecoach.commands import report

CHROMIUM = "/usr/bin/chromium"


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    if not Path(CHROMIUM).exists():
        pytest.fail("There is no Chromium. On Debian: apt-get install chromium", pytrace=False)
    with sync_playwright() as playwright:
        # The tests may run as root in a container, where Chromium's own sandbox can't start.
        started = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield started
        started.close()


@pytest.fixture(scope="session")
def address(tmp_path_factory: pytest.TempPathFactory) -> str:
    folder = tmp_path_factory.mktemp("report")
    return _page(two_ends(heard=NASTY).write(folder / "game.jsonl"), "--title", NASTY)


@pytest.fixture(scope="session")
def odd_address(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The page of a game with everything odd in it."""
    folder = tmp_path_factory.mktemp("odd")
    return _page(odd_game(folder / "game.jsonl"), "--title", "An odd game")


@pytest.fixture(scope="session")
def long_address(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The page of twenty-five ends of pairs, without sound."""
    return _page(pairs(tmp_path_factory.mktemp("long") / "game.jsonl"), "--title", "A long game", "--silent")


@pytest.fixture(scope="session")
def season_address(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The page of a season of six short games."""
    folder = tmp_path_factory.mktemp("season")
    for number in range(6):
        pairs(folder / f"{number}.jsonl", ends=2, seed=number)
    return _page(folder, "--title", "A season")


def _page(journal: Path, *options: str) -> str:
    out = journal.with_suffix(".html")
    ran = CliRunner().invoke(report.command, [str(journal), "-o", str(out), *options], standalone_mode=False)
    assert ran.exit_code == 0, ran.exception
    return out.as_uri()


@pytest.fixture
def opened(browser: Browser, address: str) -> Iterator[Page]:
    """The page at a common size; any error, refusal or request to elsewhere fails the test."""
    yield from opened_page(browser, address, viewport={"width": 1280, "height": 900})
