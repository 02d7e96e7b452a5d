"""The page in a real Chromium: axe, contrast, zoom, narrow screens, paper, drawings to scale."""

import re
from collections.abc import Iterator
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


@pytest.mark.parametrize(
    ("scheme", "width"), [("light", 1280), ("dark", 1280), ("light", 320), ("dark", 320)]
)
def test_axe_finds_no_violation_with_all_folded_and_all_open(
    browser: Browser, odd_address: str, scheme: Any, width: int
) -> None:
    options = {"color_scheme": scheme, "viewport": {"width": width, "height": 800}}
    for page in opened_page(browser, odd_address, **options):
        assert _violations(page) == []
        page.evaluate("for (const each of document.querySelectorAll('details')) each.open = true")
        page.locator("#end-1 [data-step=back]").click()
        page.locator("#end-1 [data-voice=after]").click()
        assert _violations(page) == []


@pytest.mark.parametrize(("scheme", "width"), [("light", 1280), ("dark", 320)])
def test_axe_finds_no_violation_in_a_season_and_nothing_is_cut(
    browser: Browser, season_address: str, scheme: Any, width: int
) -> None:
    options = {"color_scheme": scheme, "viewport": {"width": width, "height": 800}}
    for page in opened_page(browser, season_address, java_script_enabled=True, **options):
        assert _violations(page) == []
        assert page.evaluate("document.documentElement.scrollWidth") <= width


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
    ["svg.lead text", "fill", _TEXT],
    ["svg.held text", "fill", _TEXT],
    ["svg.over-time text", "fill", _TEXT],
    ["p", "color", _TEXT],
    ["figcaption", "color", _TEXT],
    ["small", "color", _TEXT],
    ["a", "color", _TEXT],
    ["summary", "color", _TEXT],
    ["button[aria-pressed=false]", "color", _TEXT],
    ["button[aria-disabled=true]", "color", _TEXT],
    ["svg.head .ours .edge", "fill", _GRAPHIC],
    ["svg.head .theirs .edge", "stroke", _GRAPHIC],
    ["svg.head .mark", "fill", _GRAPHIC],
    ["svg.head .doubt.ours", "stroke", _GRAPHIC],
    ["svg.head .doubt.theirs", "stroke", _GRAPHIC],
    ["svg.head .jack", "stroke", _GRAPHIC],
    ["svg.head .face", "stroke", _GRAPHIC],
    ["svg.head .rink", "stroke", _GRAPHIC],
    ["svg.lead .axis", "stroke", _GRAPHIC],
    ["svg.held .bar.ours", "stroke", _GRAPHIC],
    ["svg.held .bar.theirs", "stroke", _GRAPHIC],
    ["svg.scatter .dots.ours", "stroke", _GRAPHIC],
    ["svg.scatter .dots.theirs", "stroke", _GRAPHIC],
    ["svg.scatter .mean", "stroke", _GRAPHIC],
    ["svg.scatter .cross", "stroke", _GRAPHIC],
]


@pytest.mark.parametrize("media", ["screen", "print"])
@pytest.mark.parametrize("scheme", SCHEMES)
def test_the_contrast_of_words_and_of_every_part_of_a_drawing_is_enough(
    browser: Browser, odd_address: str, scheme: Any, media: Any
) -> None:
    for page in opened_page(browser, odd_address):
        page.emulate_media(color_scheme=scheme, media=media)
        for selector, kind, least, count, ratio in page.evaluate(_CONTRAST, _PAIRS):
            assert count > 0, selector
            assert ratio >= least, f"{selector} {kind}: {ratio:.2f}"


@pytest.mark.parametrize(
    ("width", "height"),
    [(640, 450), (320, 640), (320, 225), (2560, 1200)],
    ids=["200 % zoom", "320 px", "400 % zoom", "wide"],
)
def test_at_any_width_nothing_but_wide_tables_scrolls_sideways(
    browser: Browser, odd_address: str, width: int, height: int
) -> None:
    # WCAG 2.2, 1.4.10: at 320 CSS px (1280 px at 400 %) only what needs two dimensions may; memory.
    for page in opened_page(browser, odd_address, viewport={"width": width, "height": height}):
        page.evaluate("for (const each of document.querySelectorAll('details')) each.open = true")
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
        """() => [...document.querySelectorAll("button, select, summary, a:not(.skip)")]
             .map((each) => [each.textContent, each.getBoundingClientRect()])
             .filter(([_, place]) => place.width < 24 || place.height < 24).map(([text]) => text)"""
    )
    assert small == []


def test_drawings_on_the_screen_keep_the_scale(opened: Page) -> None:
    # Distances between the middles of bowls as drawn, against the places in the end's frame.
    for _ in range(4):
        opened.locator("#end-1 [data-step=back]").click()
    scale, pairs = opened.evaluate(
        """() => {
          const svg = document.querySelector("#end-1 svg.head");
          const scale = svg.getScreenCTM().a;
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


@pytest.mark.parametrize(("width", "height"), [(1280, 800), (390, 800)])
def test_the_first_screen_tells_the_game_without_scrolling(
    browser: Browser, long_address: str, width: int, height: int
) -> None:
    for page in opened_page(browser, long_address, viewport={"width": width, "height": height}):
        for part in (".top", ".result", "svg.lead", ".findings", ".chips"):
            foot = page.evaluate("at => document.querySelector(at).getBoundingClientRect().bottom", part)
            assert 0 < foot <= height, part
        assert page.locator(".findings li").count() == 3
        assert page.locator(".chips a").count() == 25
        assert "lead" in page.locator(".result").inner_text()


@pytest.mark.parametrize("width", [320, 390, 768, 1280])
def test_words_in_drawings_are_large_enough_to_read(browser: Browser, odd_address: str, width: int) -> None:
    # At least 9 CSS px high, three quarters of what small print has (our choice; common practice, no source).
    for page in opened_page(browser, odd_address, viewport={"width": width, "height": 800}):
        small = page.evaluate(
            """() => [...document.querySelectorAll("svg text, .axis-top, .axis-foot")].map((each) => {
                 const scale = each.getScreenCTM ? each.getScreenCTM().a : 1;
                 return [parseFloat(getComputedStyle(each).fontSize) * scale, each.textContent];
               }).filter(([high, words]) => words && high < 9)"""
        )
        assert small == []


def test_a_drawing_whose_height_is_capped_is_filled_to_its_frame(browser: Browser, odd_address: str) -> None:
    # A low window caps the height; the lines of the rink and the ditch run on to the border all the same.
    for page in opened_page(browser, odd_address, viewport={"width": 1280, "height": 300}):
        box, shown = page.evaluate(
            """() => {
              const svg = document.querySelector("#end-1 svg.head");
              const place = svg.getBoundingClientRect();
              return [place.width / place.height, svg.viewBox.baseVal.width / svg.viewBox.baseVal.height];
            }"""
        )
        assert box > shown * 1.2
        uncovered = page.evaluate(
            """() => [...document.querySelectorAll("#end-1 svg.head line")].filter((line) => {
                 const place = line.getBoundingClientRect();
                 const frame = line.ownerSVGElement.getBoundingClientRect();
                 return place.top > frame.top || place.bottom < frame.bottom;
               }).length"""
        )
        assert uncovered == 0


def test_in_forced_colours_the_sides_are_told_by_shape(browser: Browser, odd_address: str) -> None:
    for page in opened_page(browser, odd_address, forced_colors="active"):
        ours, theirs, ground = page.evaluate(
            """() => [[".ours .edge", "fill"], [".theirs .edge", "fill"], ["svg.head", "backgroundColor"]]
              .map(([part, look]) => getComputedStyle(document.querySelector("#end-1 " + part))[look])"""
        )
        assert ours != ground
        assert theirs == ground
        assert page.locator("#end-1 .theirs .mark").count() >= 1
        assert _violations(page) == []


SHEET_CM = (21.0 - 2 * 1.2, 29.7 - 2 * 1.2)
"""What an A4 sheet (ISO 216) has within the page's own margins, centimetres."""
PX_A_CM = 96 / 2.54
"""CSS px (CSS Values and Units; memory)."""


def _sheets(page: Page) -> int:
    """How many A4 sheets the page prints on: the page objects in the PDF that Chromium makes."""
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", page.pdf(format="A4")))


def _printed(browser: Browser, address: str) -> Iterator[Page]:
    """The page set as it is printed, as wide as a sheet."""
    width, height = (int(side * PX_A_CM) for side in SHEET_CM)
    for page in opened_page(browser, address, viewport={"width": width, "height": height}):
        page.emulate_media(media="print")
        yield page


def test_on_paper_the_summary_is_first_and_each_end_has_a_page_at_most(
    browser: Browser, long_address: str, odd_address: str
) -> None:
    for address in (long_address, odd_address):
        for page in _printed(browser, address):
            high = page.evaluate(
                """() => [...document.querySelectorAll("header, .end")].map((each) => {
                     const place = each.getBoundingClientRect();
                     return [each.id, place.height, getComputedStyle(each).breakBefore];
                   })"""
            )
            assert high[0][0] == "game"
            for name, height, before in high:
                assert height <= SHEET_CM[1] * PX_A_CM, name
                assert before == ("auto" if name == "game" else "page")


def test_twenty_five_ends_of_pairs_print_on_thirty_sheets_at_most_stepped_or_not(
    browser: Browser, long_address: str
) -> None:
    for page in opened_page(browser, long_address):
        page.evaluate("for (const each of document.querySelectorAll('details')) each.open = true")
        page.locator("#end-3 [data-step=first]").click()
        assert 26 <= _sheets(page) <= 30
        page.emulate_media(media="print")
        assert page.locator("button:visible, nav:visible, .tools:visible").count() == 0
        assert page.locator(".end svg.head:visible").count() == 25
