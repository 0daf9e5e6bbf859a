"""Phones in a class without internet: the door, the page, a guess, and the same plot on another phone."""

import pytest
from browser_harness import PHONE, gated_page, screenshot
from playwright.sync_api import expect
from serving_harness import PAGE, WORD, served

from gardenlib import plot
from gardenlib.words import texts

ENGLISH = texts("en")
# What sticks out of a phone's 360 px.
TOO_WIDE = """() => [...document.querySelectorAll('#rendered_cells :is(.jupyter-widgets, svg[role=img], p)')]
  .filter(e => e.offsetParent !== null && e.getBoundingClientRect().right > 360.5)
  .map(e => e.outerHTML.slice(0, 120))"""


@pytest.fixture(scope="module")
def klass(tmp_path_factory):
    """Serve a class with one page."""
    with served(tmp_path_factory.mktemp("class")) as running:
        yield running


def come_in(phone, klass):
    """Go through the door with the first code."""
    phone.goto(f"http://127.0.0.1:{klass.port}/")
    phone.get_by_label(ENGLISH["serving.class_word"]).fill(WORD)
    phone.get_by_label(ENGLISH["serving.plot_code"]).fill(klass.codes[0])
    screenshot(phone, "served_door")
    phone.get_by_role("button", name=ENGLISH["serving.come_in"]).click()


def open_page(phone, klass):
    """Open the page; its words stand first, then every panel."""
    phone.goto(f"http://127.0.0.1:{klass.port}/page/{PAGE}", wait_until="commit")
    expect(phone.get_by_role("heading", name="Start here")).to_be_visible()
    expect(phone.get_by_role("heading", name="Sources")).to_be_visible()
    panels_stand(phone)


def panels_stand(phone):
    """Wait until nothing is getting ready any more."""
    phone.locator(".gl-guess").first.wait_for()
    expect(phone.get_by_text(ENGLISH["serving.getting_ready"]).locator("visible=true")).to_have_count(0)


def test_two_phones_with_one_code_see_one_plot(phone, klass, chrome):
    """The page comes up offline; a guess survives a reload and shows on a second phone."""
    come_in(phone, klass)
    expect(phone.get_by_role("link", name="Start here")).to_be_visible()
    screenshot(phone, "served_list")
    open_page(phone, klass)
    assert phone.evaluate(TOO_WIDE) == []
    screenshot(phone, "served_ready")
    guess = phone.locator(".gl-guess").first
    guess.get_by_role("radio").first.check()
    guess.get_by_role("button", name=ENGLISH["page.keep_guess"]).click()
    said = ENGLISH["page.you_said"].split("{")[0].strip()
    expect(guess).to_contain_text(said)
    kept = guess.inner_text()
    assert plot.read(klass.plot(1)).guesses["00.cold.guess"]
    phone.reload(wait_until="commit")
    panels_stand(phone)
    expect(guess).to_have_text(kept, use_inner_text=True)
    guess.scroll_into_view_if_needed()
    screenshot(phone, "served_guess")
    with gated_page(chrome, PHONE) as second:
        come_in(second, klass)
        open_page(second, klass)
        expect(second.locator(".gl-guess").first).to_have_text(kept, use_inner_text=True)
        assert second.outside == []
    # The part of the page that would fetch a program for formulas says that it has no address for it.
    assert [words for words in phone.complaints if "mathjax" not in words] == []
