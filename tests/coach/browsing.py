"""A page opened in a real Chromium; what goes wrong in it fails the test."""

from collections.abc import Iterator
from typing import Any

from playwright.sync_api import Browser, Page

NASTY = "<script>window.broken = 1</script><img src=x onerror='window.broken = 2'>"
"""A name and a note that would run if they were not escaped."""


def opened_page(browser: Browser, address: str, **options: Any) -> Iterator[Page]:
    context = browser.new_context(**options)
    wrong: list[str] = []
    page = context.new_page()
    page.on("console", lambda message: wrong.append(message.text) if message.type == "error" else None)
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on(
        "request",
        lambda request: wrong.append(request.url) if not request.url.startswith(("file:", "data:")) else None,
    )
    page.goto(address)
    yield page
    context.close()
    assert wrong == []
