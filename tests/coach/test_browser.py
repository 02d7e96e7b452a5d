"""The page in a real Chromium: seen, heard, by keyboard alone, without scripts, narrow, dark and printed."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from click.testing import CliRunner
from playwright.sync_api import Browser, Page, sync_playwright

from tests.coach.games import two_ends
from voicecoach.commands import report

CHROMIUM = "/usr/bin/chromium"
NASTY = "<script>window.broken = 1</script><img src=x onerror='window.broken = 2'>"
WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
SCHEMES = ("light", "dark")


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    if not Path(CHROMIUM).exists():
        pytest.fail("There is no Chromium. On Debian: apt-get install chromium", pytrace=False)
    with sync_playwright() as playwright:
        # The tests may run as root in a container, where Chromium's own sandbox can't start.
        started = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield started
        started.close()


@pytest.fixture(scope="module")
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
    yield from _open(browser, address, viewport={"width": 1280, "height": 900})


def _open(browser: Browser, address: str, **options: Any) -> Iterator[Page]:
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


def _violations(page: Page) -> list[str]:
    results = Axe().run(page, options={"runOnly": {"type": "tag", "values": WCAG}}).response
    return [
        f"{each['id']}: {each['help']}: {node['html'][:120]}"
        for each in results["violations"]
        for node in each["nodes"][:2]
    ]


@pytest.mark.parametrize(("scheme", "width"), [("light", 1280), ("dark", 320)])
def test_axe_finds_no_violation(browser: Browser, address: str, scheme: Any, width: int) -> None:
    for page in _open(browser, address, color_scheme=scheme, viewport={"width": width, "height": 800}):
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
    for page in _open(browser, address, viewport={"width": width, "height": height}):
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


def _current(page: Page) -> str:
    return str(
        page.evaluate("document.activeElement.closest('.moment')?.id ?? document.activeElement.tagName")
    )


def test_moments_are_stepped_through_by_arrow_keys_and_by_buttons(opened: Page) -> None:
    opened.keyboard.press("ArrowRight")
    assert _current(opened) == "end-1-moment-1"
    opened.keyboard.press("ArrowRight")
    assert _current(opened) == "end-1-moment-2"
    opened.keyboard.press("ArrowLeft")
    assert _current(opened) == "end-1-moment-1"
    opened.locator("#end-1-moment-16 a[rel=next]").click()
    assert _current(opened) == "end-2-moment-1"
    assert opened.locator("#end-2-moment-1-name").bounding_box()["y"] < 60  # type: ignore[index]
    opened.locator("#end-2-moment-1 a[rel=prev]").click()
    assert _current(opened) == "end-1-moment-16"


def test_the_whole_page_is_reached_by_keyboard_alone_and_focus_is_seen(opened: Page) -> None:
    wanted = opened.evaluate("document.querySelectorAll('a, button, [tabindex=\"0\"]').length")
    met = set()
    for _ in range(wanted):
        opened.keyboard.press("Tab")
        met.add(
            opened.evaluate(
                """() => {
                  const all = [...document.querySelectorAll("a, button, [tabindex='0']")];
                  const here = document.activeElement;
                  const look = getComputedStyle(here);
                  const place = here.getBoundingClientRect();
                  const seen = place.bottom > 0 && place.top < innerHeight && place.width > 0;
                  return [all.indexOf(here), seen && look.outlineStyle !== "none"].join();
                }"""
            )
        )
    assert met == {f"{place},true" for place in range(wanted)}


def test_the_skip_link_leads_past_the_contents(opened: Page) -> None:
    opened.keyboard.press("Tab")
    assert opened.evaluate("document.activeElement.textContent") == "Skip to the ends"
    opened.keyboard.press("Enter")
    assert opened.evaluate("document.activeElement.id") == "main"


def test_one_moment_at_a_time_shows_one_and_steps_on(opened: Page) -> None:
    toggle = opened.locator("#single")
    toggle.click()
    assert toggle.get_attribute("aria-pressed") == "true"
    assert opened.locator(".moment:visible").count() == 1
    before = opened.locator(".moment:visible").get_attribute("id")
    opened.locator(".moment:visible a[rel=next]").click()
    assert opened.locator(".moment:visible").count() == 1
    assert opened.locator(".moment:visible").get_attribute("id") != before
    opened.locator(".contents a", has_text="End 2").click()
    assert opened.locator(".moment:visible").get_attribute("id") == "end-2-moment-1"
    toggle.click()
    assert opened.locator(".moment:visible").count() == opened.locator(".moment").count()


def test_without_scripts_all_is_there_to_read_and_to_follow(browser: Browser, address: str) -> None:
    for page in _open(browser, address, java_script_enabled=False):
        assert page.locator(".moment").count() == 21
        assert page.locator("button:visible").count() == 0
        assert "Our first: one metre, three o'clock" in page.locator("main").inner_text()
        page.locator("#end-1-moment-3 a[rel=next]").click()
        assert page.url.endswith("#end-1-moment-4")


def test_markup_in_names_and_words_is_shown_and_never_run(opened: Page) -> None:
    assert opened.evaluate("window.broken") is None
    assert NASTY in opened.locator("h1").inner_text()
    assert NASTY in opened.locator("#end-1-moment-3").inner_text()
    assert opened.title() == f"{NASTY}: the heads"


def test_nothing_moves(opened: Page) -> None:
    # Reduced motion is honoured by having none for anybody.
    moving = opened.evaluate(
        """() => [...document.querySelectorAll("*")].filter((each) => {
             const look = getComputedStyle(each);
             return look.animationName !== "none" || parseFloat(look.transitionDuration) > 0
               || look.scrollBehavior === "smooth";
           }).length"""
    )
    assert moving == 0


def test_the_button_plays_the_read_back_and_stops_it(opened: Page) -> None:
    button = opened.locator("#end-2-moment-2 .play")
    button.click()
    assert button.inner_text() == "Stop"
    button.click()
    assert button.inner_text() == "Play the read-back"
    opened.evaluate(
        """() => {
          const start = AudioBufferSourceNode.prototype.start;
          window.played = [];
          AudioBufferSourceNode.prototype.start = function (at) {
            window.played.push([at, this.buffer.duration]);
            return start.call(this, at);
          };
        }"""
    )
    button.click()
    _until(opened, "() => window.played.length > 0")
    played = opened.evaluate("window.played")
    numbers = [int(number) for number in (button.get_attribute("data-play") or "").split()]
    assert len(played) == len(numbers) // 2
    for (start, seconds), (following, _), silent_ms in zip(played, played[1:], numbers[1::2], strict=False):
        assert seconds > 0.2
        assert following - start == pytest.approx(seconds + silent_ms / 1000)
    _until(opened, "() => !document.querySelector('.playing')")
    assert button.inner_text() == "Play the read-back"


def _until(page: Page, condition: str) -> None:
    """Wait by asking again and again: the page's policy forbids what Playwright's own waiting does."""
    for _ in range(200):
        if page.evaluate(condition):
            return
        page.wait_for_timeout(100)
    pytest.fail(f"never came true: {condition}")


def test_stepping_on_ends_the_sound(opened: Page) -> None:
    button = opened.locator("#end-1-moment-5 .play")
    button.click()
    opened.locator("#end-1-moment-5 a[rel=next]").click()
    assert button.inner_text() == "Play the read-back"


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
