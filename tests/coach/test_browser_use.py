"""The page in a real Chromium: by keyboard alone, without scripts, heard, and never made to run a name."""

from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from tests.coach.browsing import NASTY, opened_page


def _at(page: Page, end: str) -> str:
    return page.locator(f"#{end} .at").inner_text()


def _show(page: Page, end: str) -> None:
    page.evaluate("id => document.getElementById(id).scrollIntoView()", end)


def _top(page: Page, selector: str) -> float:
    return float(page.evaluate("at => document.querySelector(at).getBoundingClientRect().top", selector))


def _until(page: Page, condition: str, argument: Any = None) -> None:
    """Wait by asking again and again: the page's policy forbids what Playwright's own waiting does."""
    for _ in range(300):
        if page.evaluate(condition, argument):
            return
        page.wait_for_timeout(100)
    pytest.fail(f"never came true: {condition}")


def test_arrow_keys_step_through_the_end_in_view_and_no_other(opened: Page) -> None:
    _show(opened, "end-2")
    opened.keyboard.press("ArrowLeft")
    opened.keyboard.press("ArrowLeft")
    assert (_at(opened, "end-1"), _at(opened, "end-2")) == ("16 of 16", "3 of 5")
    opened.keyboard.press("ArrowRight")
    assert (_at(opened, "end-1"), _at(opened, "end-2")) == ("16 of 16", "4 of 5")
    for _ in range(9):
        opened.keyboard.press("ArrowLeft")
    assert (_at(opened, "end-1"), _at(opened, "end-2")) == ("16 of 16", "1 of 5")


def test_arrow_keys_step_through_the_end_that_has_the_focus(opened: Page) -> None:
    opened.locator("#end-1 [data-step=back]").click()
    opened.keyboard.press("ArrowLeft")
    assert (_at(opened, "end-1"), _at(opened, "end-2")) == ("14 of 16", "5 of 5")


def test_at_the_top_of_the_page_where_no_end_is_in_view_the_keys_do_nothing(opened: Page) -> None:
    opened.keyboard.press("ArrowLeft")
    assert (_at(opened, "end-1"), _at(opened, "end-2")) == ("16 of 16", "5 of 5")
    assert opened.evaluate("scrollY") == 0


@pytest.mark.parametrize("width", [1280, 320])
def test_a_step_keeps_its_place_on_the_screen_and_nothing_above_it_moves(
    browser: Browser, address: str, width: int
) -> None:
    for page in opened_page(browser, address, viewport={"width": width, "height": 800}):
        button = page.locator("#end-1 [data-step=back]")
        button.scroll_into_view_if_needed()
        where = [_top(page, f"#end-1 {part}") for part in ("[data-step=back]", "h3", "svg.head", ".now")]
        for _ in range(15):
            button.click()
            button.evaluate("button => button.focus()")
            assert [
                _top(page, f"#end-1 {part}") for part in ("[data-step=back]", "h3", "svg.head", ".now")
            ] == where
            assert page.evaluate("document.activeElement.dataset.step") == "back"
        assert _at(page, "end-1") == "1 of 16"
        assert button.get_attribute("aria-disabled") == "true"


def test_a_step_shows_the_head_the_sentences_and_the_line_of_that_moment(opened: Page) -> None:
    opened.locator("#end-1 [data-step=first]").click()
    assert opened.locator("#end-1 svg.head .bowl:visible").count() == 0
    opened.locator("#end-1 [data-step=next]").click()
    opened.locator("#end-1 [data-step=next]").click()
    seen = opened.locator("#end-1 svg.head .bowl:visible").evaluate_all(
        "all => all.map((each) => each.dataset.body)"
    )
    assert seen == ["ours 1"]
    assert opened.locator("#end-1 svg.head .ours .named").count() == 1
    assert opened.locator("#end-1 .now").inner_text().startswith("Our first:")
    assert opened.locator("#end-1 .sentences li").all_inner_texts() == [
        "We hold one shot.",
        "The jack.",
        "Our first: half a metre, two o'clock, past and right.",
    ]
    opened.locator("#end-1 .moments summary").click()
    assert opened.locator("#end-1 tr.shown th").inner_text() == "3"
    opened.locator("#end-1 [data-step=last]").click()
    assert opened.locator("#end-1 .now").inner_text() == "As the end was left."
    assert opened.locator("#end-1 svg.head .named").count() == 0
    jack = opened.locator("#end-1 .clock").get_attribute("transform")
    assert jack == "translate(200 -29000)"


def test_the_whole_page_is_reached_by_keyboard_alone_and_focus_is_seen(opened: Page) -> None:
    opened.evaluate("for (const each of document.querySelectorAll('details')) each.open = true")
    pressed = "a, button, select, summary, [tabindex='0']"
    wanted = opened.evaluate(f'document.querySelectorAll("{pressed}").length')
    met = set()
    for _ in range(wanted):
        opened.keyboard.press("Tab")
        met.add(
            opened.evaluate(
                """(pressed) => {
                  const all = [...document.querySelectorAll(pressed)];
                  const here = document.activeElement;
                  const look = getComputedStyle(here);
                  const place = here.getBoundingClientRect();
                  const seen = place.bottom > 0 && place.top < innerHeight && place.width > 0;
                  return [all.indexOf(here), seen && look.outlineStyle !== "none"].join();
                }""",
                pressed,
            )
        )
    assert met == {f"{place},true" for place in range(wanted)}


def test_the_skip_link_leads_past_the_first_screen(opened: Page) -> None:
    opened.keyboard.press("Tab")
    assert opened.evaluate("document.activeElement.textContent") == "Skip to the game"
    opened.keyboard.press("Enter")
    assert opened.evaluate("document.activeElement.id") == "main"


def test_a_result_leads_to_its_end(opened: Page) -> None:
    opened.locator(".chips a").nth(1).click()
    assert opened.url.endswith("#end-2")
    assert -5 < _top(opened, "#end-2") < 60


def test_without_scripts_all_is_there_to_read_and_to_follow(browser: Browser, address: str) -> None:
    for page in opened_page(browser, address, java_script_enabled=False):
        assert page.locator(".end").count() == 2
        assert page.locator("button:visible, .now:visible").count() == 0
        assert "Our first: one metre, three o'clock" in page.locator("#end-2 .sentences").inner_text()
        page.locator(".chips a").nth(1).click()
        assert page.url.endswith("#end-2")
        moments = page.locator("#end-1 .moments")
        assert not moments.locator("table").is_visible()
        moments.locator("summary").click()
        rows = moments.locator("tbody tr:visible")
        assert rows.count() == 16
        assert rows.nth(2).inner_text().startswith("3\tOur first: ")


def test_markup_in_names_and_words_is_shown_and_never_run(opened: Page) -> None:
    opened.keyboard.press("End")
    assert opened.evaluate("window.broken") is None
    assert NASTY in opened.locator("h1").inner_text()
    assert opened.title() == f"{NASTY}: the game"


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


MARKED = (
    """() => [...document.querySelectorAll("#end-2 .sentences li")].findIndex((each) => each.ariaCurrent)"""
)


def test_the_voice_speaks_sentence_by_sentence_and_marks_the_spoken_one(opened: Page) -> None:
    opened.evaluate(
        """() => {
          const play = HTMLMediaElement.prototype.play;
          window.played = [];
          HTMLMediaElement.prototype.play = function () {
            window.played.push([this.src, this.playbackRate]);
            return play.call(this);
          };
        }"""
    )
    button = opened.locator("#end-2 [data-voice=play]")
    button.click()
    assert button.inner_text() == "Pause"
    sentences = opened.locator("#end-2 .sentences li")
    for at in range(sentences.count()):
        _until(opened, f"() => ({MARKED})() === {at}")
    _until(opened, "() => !document.querySelector('[aria-pressed=true]')")
    assert button.inner_text() == "Play"
    assert opened.evaluate(MARKED) == -1
    wanted = opened.evaluate(
        """() => {
          const read = (id) => JSON.parse(document.getElementById(id).textContent);
          const { ends, said } = read("heads"), clips = read("clips");
          const [last, states] = ends["end-2"];
          return states[last][2].flatMap((number) => said[number][1].filter((_, at) => at % 2 === 0))
            .map((clip) => "data:audio/mpeg;base64," + clips[clip]);
        }"""
    )
    assert [source for source, _ in opened.evaluate("window.played")] == wanted


def test_the_voice_is_paused_goes_on_and_is_stopped_by_escape(opened: Page) -> None:
    button = opened.locator("#end-2 [data-voice=play]")
    button.click()
    _until(opened, f"() => ({MARKED})() === 1")
    button.click()
    assert button.get_attribute("aria-pressed") == "false"
    opened.wait_for_timeout(400)
    assert opened.evaluate(MARKED) == 1
    button.click()
    assert opened.evaluate(MARKED) == 1
    opened.keyboard.press("Escape")
    assert button.get_attribute("aria-pressed") == "false"
    assert opened.evaluate(MARKED) == -1


def test_the_voice_goes_a_sentence_on_and_back_and_faster(opened: Page) -> None:
    opened.locator("#end-2 [data-voice=after]").click()
    opened.locator("#end-2 [data-voice=after]").click()
    assert opened.evaluate(MARKED) == 1
    opened.locator("#end-2 [data-voice=before]").click()
    assert opened.evaluate(MARKED) == 0
    opened.locator("#end-2 select").select_option("1.5")
    assert opened.locator("#end-1 select").input_value() == "1.5"
    opened.evaluate(
        """() => {
          const play = HTMLMediaElement.prototype.play;
          HTMLMediaElement.prototype.play = function () {
            window.rate = this.playbackRate;
            return play.call(this);
          };
        }"""
    )
    opened.locator("#end-2 [data-voice=play]").click()
    assert opened.evaluate("window.rate") == 1.5


def test_a_step_and_another_ends_voice_end_the_sound(opened: Page) -> None:
    button = opened.locator("#end-1 [data-voice=play]")
    button.click()
    opened.locator("#end-1 [data-step=back]").click()
    assert button.inner_text() == "Play"
    button.click()
    opened.locator("#end-2 [data-voice=play]").click()
    assert button.inner_text() == "Play"
    assert opened.locator("[aria-pressed=true]").count() == 1
