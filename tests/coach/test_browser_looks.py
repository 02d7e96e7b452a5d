"""The page in a real Chromium: axe, contrast, zoom, narrow screens, paper, drawings to scale."""

from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from tests.coach.browsing import opened_page
from tests.coach.games import two_ends

WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
SCHEMES = ("light", "dark")


def _violations(page: Page) -> list[str]:
    results = Axe().run(page, options={"runOnly": {"type": "tag", "values": WCAG}}).response
    return [
        f"{each['id']}: {each['help']}: {node['html'][:120]}"
        for each in results["violations"]
        for node in each["nodes"][:2]
    ]


@pytest.mark.parametrize(("scheme", "width"), [("light", 1280), ("dark", 320)])
def test_axe_finds_no_violation(browser: Browser, address: str, scheme: Any, width: int) -> None:
    for page in opened_page(browser, address, color_scheme=scheme, viewport={"width": width, "height": 800}):
        assert _violations(page) == []


# WCAG 2.2, relative luminance and contrast ratio (the definitions in its glossary; memory).
_CONTRAST = """(pairs) => {
  const paint = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
  const light = (colour) => {
    paint.fillStyle = colour;
    paint.fillRect(0, 0, 1, 1);
    const parts = [...paint.getImageData(0, 0, 1, 1).data].slice(0, 3).map((part) => {
      const share = part / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2];
  };
  const ground = light(getComputedStyle(document.body).backgroundColor);
  return pairs.map(([selector, property, least]) => {
    const found = [...document.querySelectorAll(selector)];
    const ratios = found.map((each) => {
      const other = light(getComputedStyle(each)[property]);
      return (Math.max(ground, other) + 0.05) / (Math.min(ground, other) + 0.05);
    });
    return [selector, property, least, found.length, Math.min(...ratios)];
  });
}"""
_TEXT, _GRAPHIC = 4.5, 3.0
"""WCAG 2.2, 1.4.3 (AA) and 1.4.11 (AA); memory."""
_PAIRS = [
    ["svg.head .name", "fill", _TEXT],
    ["svg.head .note", "fill", _TEXT],
    ["svg.head .hour", "fill", _TEXT],
    ["svg.by-end .note", "fill", _TEXT],
    ["p", "color", _TEXT],
    ["dt", "color", _TEXT],
    ["a", "color", _TEXT],
    ["button:not(.playing)", "color", _TEXT],
    ["svg.head .ours .edge", "fill", _GRAPHIC],
    ["svg.head .theirs .edge", "stroke", _GRAPHIC],
    ["svg.head .mark", "fill", _GRAPHIC],
    ["svg.head .named", "stroke", _GRAPHIC],
    ["svg.head .doubt.ours", "stroke", _GRAPHIC],
    ["svg.head .doubt.theirs", "stroke", _GRAPHIC],
    ["svg.head .jack", "stroke", _GRAPHIC],
    ["svg.head .face", "stroke", _GRAPHIC],
    ["svg.head .rink", "stroke", _GRAPHIC],
    ["svg.head .ditch", "stroke", _GRAPHIC],
    ["svg.held .bar.ours", "stroke", _GRAPHIC],
    ["svg.held .bar.theirs", "stroke", _GRAPHIC],
    ["svg .spot", "stroke", _GRAPHIC],
]


@pytest.mark.parametrize("media", ["screen", "print"])
@pytest.mark.parametrize("scheme", SCHEMES)
def test_the_contrast_of_words_and_of_every_part_of_a_drawing_is_enough(
    opened: Page, scheme: Any, media: Any
) -> None:
    opened.emulate_media(color_scheme=scheme, media=media)
    for selector, kind, least, count, ratio in opened.evaluate(_CONTRAST, _PAIRS):
        assert count > 0, selector
        assert ratio >= least, f"{selector} {kind}: {ratio:.2f}"


@pytest.mark.parametrize(
    ("width", "height"),
    [(640, 450), (320, 640), (320, 225), (2560, 1200)],
    ids=["200 % zoom", "320 px", "400 % zoom", "wide"],
)
def test_at_any_width_nothing_but_wide_tables_scrolls_sideways(
    browser: Browser, address: str, width: int, height: int
) -> None:
    # WCAG 2.2, 1.4.10: at 320 CSS px (1280 px at 400 %) only what needs two dimensions may; memory.
    for page in opened_page(browser, address, viewport={"width": width, "height": height}):
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        cut = page.evaluate(
            """() => [...document.querySelectorAll("body *:not(svg *)")].filter((each) => {
                 const place = each.getBoundingClientRect();
                 return place.width && place.right > innerWidth + 1
                   && !each.closest(".wide") && !each.closest(".skip");
               }).map((each) => each.outerHTML.slice(0, 80))"""
        )
        assert cut == []


def test_text_set_twice_as_large_stays_whole(opened: Page) -> None:
    # WCAG 2.2, 1.4.4: text can be resized to 200 % without loss; memory.
    opened.evaluate("document.documentElement.style.fontSize = '200%'")
    assert opened.evaluate("document.documentElement.scrollWidth") <= 1280


def test_everything_that_can_be_pressed_is_large_enough(opened: Page) -> None:
    # WCAG 2.2, 2.5.8: at least 24 by 24 CSS px; memory.
    small = opened.evaluate(
        """() => [...document.querySelectorAll("button, a:not(.skip)")]
             .map((each) => [each.textContent, each.getBoundingClientRect()])
             .filter(([_, place]) => place.width < 24 || place.height < 24).map(([text]) => text)"""
    )
    assert small == []


def test_drawings_on_the_screen_keep_the_scale(opened: Page) -> None:
    # Distances between the middles of bowls as drawn, against the places in the end's frame.
    scale, pairs = opened.evaluate(
        """() => {
          const svg = document.querySelector("#end-1-moment-12 svg.head");
          const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
          const middle = (body) => {
            const place = svg.querySelector(`[data-body="${body}"] .edge`).getBoundingClientRect();
            return [place.x + place.width / 2, place.y + place.height / 2];
          };
          return [scale, ["ours 1", "ours 2", "ours 4", "theirs 1"].map(middle)];
        }"""
    )
    bowls = {
        f"{bowl.side} {bowl.number}": bowl
        for entry in two_ends().entries[:12]
        if entry.event
        for bowl in entry.event.bowls
    }
    first = bowls["ours 1"]
    for name, (x, y) in zip(["ours 1", "ours 2", "ours 4", "theirs 1"], pairs, strict=True):
        bowl = bowls[name]
        assert None not in (bowl.x_m, bowl.y_m, first.x_m, first.y_m)
        across = 1000 * ((bowl.x_m or 0) - (first.x_m or 0)) * scale
        along = 1000 * ((bowl.y_m or 0) - (first.y_m or 0)) * scale
        assert (x - pairs[0][0], pairs[0][1] - y) == pytest.approx((across, along), abs=1.0)


def test_on_paper_there_are_no_buttons_and_every_moment(opened: Page) -> None:
    opened.locator("#single").click()
    opened.emulate_media(media="print")
    assert opened.locator("button:visible, nav:visible, .step:visible").count() == 0
    assert opened.locator(".moment:visible").count() == 21
