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
    """Open the page and wait until its panels stand."""
    phone.goto(f"http://127.0.0.1:{klass.port}/page/{PAGE}", wait_until="commit")
    expect(phone.get_by_role("heading", name="Start here")).to_be_visible()
    try:
        phone.locator(".gl-panel").first.wait_for(timeout=20000)
    except Exception:
        screenshot(phone, "served_stuck")
        print("DBG", phone.complaints, phone.outside, len(phone.content()))
        print(phone.content()[-3000:])
        raise


def test_two_phones_with_one_code_see_one_plot(phone, klass, chrome):
    """Words stand before the code is ready; a guess is kept over a reload and shows on a second phone."""
    come_in(phone, klass)
    phone.get_by_role("link", name="Start here").wait_for()
    screenshot(phone, "served_list")
    open_page(phone, klass)
    phone.wait_for_timeout(500)
    screenshot(phone, "served_ready")
    print(phone.complaints, phone.outside, phone.evaluate(TOO_WIDE))
    print(phone.locator("#rendered_cells").inner_html()[:6000])
