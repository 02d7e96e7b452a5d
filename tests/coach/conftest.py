"""The report of a game, and a browser to open it in."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner
from playwright.sync_api import Browser, Page, sync_playwright

from tests.coach.browsing import NASTY, opened_page
from tests.coach.games import two_ends
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
    journal, out = two_ends(heard=NASTY).write(folder / "game.jsonl"), folder / "page.html"
    ran = CliRunner().invoke(
        report.command, [str(journal), "-o", str(out), "--title", NASTY], standalone_mode=False
    )
    assert ran.exit_code == 0
    return out.as_uri()


@pytest.fixture
def opened(browser: Browser, address: str) -> Iterator[Page]:
    """The page at a common size; any error, refusal or request to elsewhere fails the test."""
    yield from opened_page(browser, address, viewport={"width": 1280, "height": 900})
