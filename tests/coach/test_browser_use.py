"""The page in a real Chromium: by keyboard alone, without scripts, heard, and never made to run a name."""

import pytest
from playwright.sync_api import Browser, Page

from tests.coach.browsing import NASTY, opened_page


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
    for page in opened_page(browser, address, java_script_enabled=False):
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
