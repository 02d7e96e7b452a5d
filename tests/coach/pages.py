"""A page read as text: its tags, its tables by their ids, and the words of every end."""

import json
import re
from html.parser import HTMLParser
from typing import Any

EMPTY = {"meta", "link", "br", "circle", "line", "path", "rect", "ellipse", "input"}


class Reader(HTMLParser):
    """Every tag with its attributes; tables as rows of cells; text by the id of the section it is in."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.text = text
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.sections: dict[str, str] = {}
        self.tables: dict[str, list[list[str]]] = {}
        self._open: list[tuple[str, str]] = []
        self.feed(text)

    @property
    def elements(self) -> int:
        """Nodes in the file that are elements, those in templates among them."""
        return len(self.tags)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = dict(attrs)
        self.tags.append((tag, found))
        if tag in EMPTY:
            return
        self._open.append((tag, found.get("id") or ""))
        table = self._table()
        if table is not None and tag == "tr":
            table.append([])
        elif table is not None and tag in ("td", "th"):
            table[-1].append("")

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        if tag in EMPTY:
            return
        assert self._open[-1][0] == tag, (tag, self._open)
        self._open.pop()

    def handle_data(self, data: str) -> None:
        for tag, name in self._open:
            if tag in ("section", "header") and name:
                self.sections[name] = self.sections.get(name, "") + data
        table = self._table()
        if table is not None and table and any(tag in ("td", "th") for tag, _ in self._open):
            table[-1][-1] += data.replace("\N{NO-BREAK SPACE}", " ")

    def _table(self) -> list[list[str]] | None:
        if not any(tag == "table" for tag, _ in self._open):
            return None
        ids = [name for tag, name in self._open if tag in ("table", "section") and name]
        return self.tables.setdefault(ids[-1], [])

    def data(self, name: str) -> Any:
        """What the page gives its script under this id."""
        found = re.search(
            rf'<script type="application/json" id="{name}">(.*?)</script>', self.text, re.DOTALL
        )
        assert found
        return json.loads(found[1])
