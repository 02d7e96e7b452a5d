"""The coach's page against its budget: `python -m tests.bench.page [--journals 1000]`.

Processor time is that of the command and its helpers, so that a busy machine counts against it as little as
can be; "ready" is what a real Chromium takes until the page's script has run. It exits 1 where a budget is
broken.
"""

from __future__ import annotations

import argparse
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from typing import NamedTuple

from playwright.sync_api import sync_playwright

from tests.bench.page.games import pairs

CHROMIUM = "/usr/bin/chromium"
ENDS, KINDS = 25, 20
"""Ends of the game that is measured; different journals among those of the season."""
SEASON_ENDS, SEASON_BOWLS = 18, 4
START_S = 2.0
"""Of the season's budget, what the command may take before its first journal."""


class Line(NamedTuple):
    """One figure beside its budget."""

    name: str
    found: float
    most: float | None
    unit: str

    @property
    def kept(self) -> bool:
        """Whether the budget is kept."""
        return self.most is None or self.found <= self.most

    def __str__(self) -> str:
        budget = "" if self.most is None else f" (at most {self.most:g})"
        return f"{'' if self.kept else 'BROKEN: '}{self.name}: {self.found:,.6g} {self.unit}{budget}"


class Nodes(HTMLParser):
    """Counts what is in a file, templates and hidden parts included."""

    elements = words = 0

    def handle_starttag(self, _tag: str, _attrs: list[tuple[str, str | None]]) -> None:
        self.elements += 1

    def handle_data(self, _data: str) -> None:
        self.words += 1


def game(folder: Path) -> Iterator[Line]:
    """Twenty-five ends of pairs, with sound."""
    path, out = pairs(folder / "game.jsonl", ENDS), folder / "game.html"
    yield Line("written in, processor time", _report(path, out).seconds, 6.0, "s")
    yield Line("size", out.stat().st_size / 1e6, 3.5, "MB")
    nodes = Nodes()
    nodes.feed(out.read_text(encoding="utf-8"))
    yield Line("nodes, elements", nodes.elements, 12_000, "")
    yield Line("nodes, elements and texts", nodes.elements + nodes.words, None, "")
    yield from _in_chromium(out)


def _in_chromium(out: Path) -> Iterator[Line]:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": 1280, "height": 800})
        page.goto(out.as_uri(), wait_until="load")
        timing = "performance.getEntriesByType('navigation')[0].domContentLoadedEventEnd / 1000"
        yield Line("ready in Chromium", page.evaluate(timing), 1.5, "s")
        yield Line("height on a screen 1280 px wide", page.evaluate("document.body.scrollHeight"), None, "px")
        sheets = len(re.findall(rb"/Type\s*/Page\b(?!s)", page.pdf(format="A4")))
        yield Line("printed pages", sheets, 30, "")
        browser.close()


def season(folder: Path, journals: int) -> Iterator[Line]:
    """A season of so many journals, eighteen ends of singles each; and a tenth of them, for the memory."""
    made = [
        pairs(folder / f"{number}.jsonl", SEASON_ENDS, seed=number, bowls=SEASON_BOWLS)
        for number in range(KINDS)
    ]
    for count in (max(1, journals // 10), journals):
        inside = folder / f"season {count}"
        inside.mkdir()
        for number in range(count):
            shutil.copy(made[number % KINDS], inside / f"{number:04}.jsonl")
        size = sum(path.stat().st_size for path in inside.iterdir()) / 1e6
        yield Line(f"season of {count} journals", size, None, "MB of journals")
        begun, out = time.monotonic(), folder / f"season {count}.html"
        used = _report(inside, out)
        yield Line(
            "season written in, processor time", used.seconds, START_S + (60 - START_S) * count / 1000, "s"
        )
        yield Line("season written in, by the clock", time.monotonic() - begun, None, "s")
        yield Line("most memory", used.mebibytes, None, "MiB")
        yield Line("size of the page", out.stat().st_size / 1e6, None, "MB")


class Used(NamedTuple):
    """What a command took."""

    seconds: float
    """Processor time, its helpers included."""
    mebibytes: float
    """The most memory that it held at a time, without its helpers."""


def _report(given: Path, out: Path) -> Used:
    command = [sys.executable, "-m", "voicecoach", "report", str(given), "-o", str(out)]
    child = subprocess.Popen(command, stderr=subprocess.DEVNULL)
    _, status, used = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode:
        raise SystemExit(f"{' '.join(command)} ended with {child.returncode}.")
    return Used(used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)


def main() -> int:
    """Measure, print, and say by the exit status whether every budget is kept."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--journals", type=int, default=1000, help="Journals of the season.")
    wanted = parser.parse_args()
    kept = True
    with tempfile.TemporaryDirectory() as name:
        for line in (*game(Path(name)), *season(Path(name), wanted.journals)):
            print(line, flush=True)
            kept = kept and line.kept
    return 0 if kept else 1


if __name__ == "__main__":
    sys.exit(main())
