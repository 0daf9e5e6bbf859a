"""Served screens for everybody: by screen reader, by keyboard, on a narrow screen, with a thumb, in the sun.

Source: Web Content Accessibility Guidelines 2.2 (W3C Recommendation, 2023): reflow at 320 px (1.4.10), 200 % zoom
(1.4.4), focus that is seen and kept (2.4.7, 2.1.2, 2.4.3), targets of 24 px (2.5.8) and, for a thumb, 44 px (2.5.5).
The rules for names, roles and contrast are those of axe-core, read from its own program.
"""

import os
import re
import shutil

import pytest
from axe_playwright_python.sync_playwright import Axe
from browser_harness import screenshot
from playwright.sync_api import expect
from serving_harness import WORD, served

from gardenlib import plot
from gardenlib.carried import carried
from gardenlib.serving.pages import pages_for_learners
from gardenlib.words import texts

ENGLISH = texts("en")
PAGES = [page.name for page in pages_for_learners()]
# Each page takes half a minute; all of them are tried where GARDENLIB_BROWSER is "all".
TRIED = PAGES if os.environ.get("GARDENLIB_BROWSER") == "all" else ("01_site_and_zone", "04_sowing_calendar")
NARROW, ZOOMED = {"width": 320, "height": 568}, {"width": 640, "height": 512}  # 1280 px at 400 % and at 200 %
THUMB_PX = 44
TRIES, LONGEST_PAUSE_MS = 20, 2000  # of a learner who is slowed down for the first time
DATE_PARTS = 5  # month, day, year, its calendar, and on
RULES = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    "rules": {"color-contrast-enhanced": {"enabled": True}},
    "resultTypes": ["violations"],
}

# Waits until the page has not changed for a second.
QUIET = """async () => {
  for (let still = 0, last = ''; still < 7; ) {
    await new Promise(done => setTimeout(done, 150));
    const now = document.body.innerHTML;
    still = now === last ? still + 1 : 0;
    last = now;
  }
}"""
# Keeps each guess that is asked and opens each fold; tells whether there was any.
OPEN = """() => {
  const asked = [...document.querySelectorAll('.gl-guess:has(input[type=radio])')].filter(box => box.offsetParent);
  for (const box of asked) {
    box.querySelector('input[type=radio]').click();
    box.querySelector('.jupyter-button').click();
  }
  const closed = '.gl-fold > .jupyter-button:not(.mod-active), details:not([open]) > summary';
  const folds = [...document.querySelectorAll(closed)].filter(fold => fold.offsetParent);
  folds.forEach(fold => fold.click());
  return asked.length + folds.length > 0;
}"""
# What sticks out sideways, but for tables, which scroll in a box of their own; and what is cut off in its box.
LOST = """() => {
  const said = part => part.outerHTML.slice(0, 150);
  const seen = [...document.querySelectorAll('body *:not(svg *)')].filter(part => part.getClientRects().length);
  const out = seen.filter(part => !part.closest('.gl-scroll > *'))
    .filter(part => part.getBoundingClientRect().right > innerWidth + 1 || part.getBoundingClientRect().left < -1);
  const cut = seen.filter(part => part.innerText?.trim()).filter(part => {
    const style = getComputedStyle(part), hides = way => way === 'hidden' || way === 'clip';
    return hides(style.overflowX) && part.scrollWidth > part.clientWidth + 1
      || hides(style.overflowY) && part.scrollHeight > part.clientHeight + 1;
  });
  const across = Math.max(document.documentElement.scrollWidth, document.body.scrollWidth);
  const wide = across > innerWidth ? ['the page scrolls sideways'] : [];
  return [...wide, ...out.map(said), ...cut.map(said)];
}"""
# What can be used, each with how much room there is to hit it: a choice with its words, all else by itself.
USABLE = "a[href], button, input, select, textarea, summary, [role=slider], [tabindex='0']"
SMALL = """([usable, least]) => [...document.querySelectorAll(usable)]
  .filter(part => part.getClientRects().length && !part.matches('.gl-scroll'))
  .map(part => [part, part.matches('[type=radio], [type=checkbox]') ? part.closest('label') : part])
  .map(([part, target]) => [part, target.getBoundingClientRect()])
  .filter(([, room]) => room.width < least || room.height < least)
  .map(([part, room]) => `${Math.round(room.width)} x ${Math.round(room.height)} ${part.outerHTML.slice(0, 150)}`)"""
# What Tab must stop at, in the order in which it is read: of several answers to one question only one.
STOPS = """usable => { const seen = [...document.querySelectorAll(usable)]
  .filter(part => part.getClientRects().length && part.tabIndex >= 0);
  window.stops = seen.filter(part => {
    const answers = seen.filter(one => part.type === 'radio' && one.type === 'radio' && one.name === part.name);
    return part.type !== 'radio' || part.name === '' || part === (answers.find(one => one.checked) || answers[0]);
  });
  document.activeElement.blur();
  window.scrollTo(0, 0);
  return window.stops.length;
}"""
# Which of them has the focus, and whether a ring is drawn around it.
FOCUS = """() => {
  const at = document.activeElement, style = getComputedStyle(at);
  return { place: window.stops.indexOf(at), words: at.outerHTML.slice(0, 150),
           ring: style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2 };
}"""


@pytest.fixture(scope="module")
def klass(tmp_path_factory):
    """Serve a class whose first plot holds the demo's crops and beds."""
    with served(tmp_path_factory.mktemp("class"), pages=TRIED) as running:
        running.plot(1).parent.mkdir()
        shutil.copy(carried("data_demo") / "class_plot.json", running.plot(1))
        yield running


def address(klass, way=""):
    """Write the address of a screen."""
    return f"http://127.0.0.1:{klass.port}/{way}"


def come_in(phone, klass, number):
    """Go through the door with the code of a plot."""
    phone.goto(address(klass))
    phone.get_by_label(ENGLISH["serving.class_word"]).fill(WORD)
    phone.get_by_label(ENGLISH["serving.plot_code"]).fill(klass.codes[number - 1])
    phone.get_by_role("button", name=ENGLISH["serving.come_in"]).click()
    phone.get_by_role("button", name=ENGLISH["serving.leave"]).wait_for()


def try_another(phone):
    """Try a word and a code that do not fit."""
    phone.get_by_label(ENGLISH["serving.class_word"]).fill("another")
    phone.get_by_label(ENGLISH["serving.plot_code"]).fill("1")
    phone.get_by_role("button", name=ENGLISH["serving.come_in"]).click()


def open_page(phone, klass, name):
    """Open a page and wait until its panels stand."""
    phone.goto(address(klass, f"page/{name}"), wait_until="commit")
    phone.locator(".gl-check, .gl-panel").last.wait_for(timeout=60_000)
    expect(phone.locator(".garden-waits:visible")).to_have_count(0, timeout=60_000)
    phone.evaluate(QUIET)


def findings(phone):
    """List what axe-core finds amiss, of any weight."""
    found = Axe().run(phone, options=RULES).response["violations"]
    return [(one["id"], one["impact"], node["html"][:200]) for one in found for node in one["nodes"]]


def faults(phone):
    """List all that is amiss on a screen at a phone's width, at 320 px and at 200 % zoom."""
    own, found = phone.viewport_size, findings(phone)
    found += phone.evaluate(SMALL, [USABLE, THUMB_PX])
    for size in (NARROW, ZOOMED):
        phone.set_viewport_size(size)
        phone.wait_for_timeout(200)
        found += [(size["width"], words) for words in phone.evaluate(LOST)]
    phone.set_viewport_size(own)
    return found


def astray(phone):
    """Walk through a screen by Tab from its top; list what is passed by, out of order, or without a ring."""
    found = []
    for place in range(phone.evaluate(STOPS, USABLE)):
        for _ in range(DATE_PARTS):
            phone.keyboard.press("Tab")
            focus = phone.evaluate(FOCUS)
            if focus["place"] != place - 1:  # a date has several parts, and Tab goes through them
                break
        if focus["place"] != place or not focus["ring"]:
            found.append((place, focus))
    return found


def instructor_link(klass):
    """Read the way to the instructor's view where the command prints it."""
    return re.search(r"/(class\?key=\S+)", (klass.home / "server.log").read_text("utf-8"))[1]


def test_screens_around_the_pages(phone, klass):
    """Door, its answer to a slip of the pen, list, nothing there, and the instructor's view have no fault."""
    phone.goto(address(klass))
    assert faults(phone) == []
    assert astray(phone) == []
    try_another(phone)
    expect(phone.get_by_role("alert")).to_have_text(ENGLISH["serving.look_again"])
    assert faults(phone) == []
    for _ in range(TRIES):
        try_another(phone)
        if "try again" in phone.get_by_role("alert").inner_text():
            break
    expect(phone.get_by_role("alert")).to_have_text(re.compile("Wait [0-9]+ seconds?, then try again."))
    assert faults(phone) == []
    phone.wait_for_timeout(LONGEST_PAUSE_MS)
    come_in(phone, klass, 2)
    assert faults(phone) == []
    assert astray(phone) == []
    phone.goto(address(klass, "nothing"))
    assert faults(phone) == []
    phone.goto(address(klass, instructor_link(klass)))
    phone.locator("summary").first.wait_for(timeout=90_000)  # the questions are worked out while the class arrives
    phone.evaluate("document.querySelectorAll('details').forEach(fold => { fold.open = true; })")
    assert faults(phone) == []
    screenshot(phone, "served_class_view")


def test_page_that_breaks_off_says_so(phone, klass):
    """A page that ends before its code has run says that it sleeps and can be woken, and its words can be read."""
    come_in(phone, klass, 4)

    def broken(route):
        answer = route.fetch()
        route.fulfill(response=answer, body=answer.text().partition("jupyter-config-data")[0])

    phone.route("**/page/*", broken)
    phone.goto(address(klass, "page/01_site_and_zone"))
    expect(phone.get_by_role("alert")).to_contain_text(ENGLISH["serving.asleep"])
    expect(phone.locator(".garden-waits:visible")).to_have_count(0)
    assert faults(phone) == []
    screenshot(phone, "served_asleep")
    phone.unroute("**/page/*")
    phone.get_by_role("button", name=ENGLISH["serving.wake"]).click(timeout=60_000)
    phone.locator(".gl-panel").first.wait_for(timeout=60_000)
    expect(phone.get_by_role("alert")).to_have_count(0)


@pytest.mark.parametrize("name", TRIED)
def test_page_with_every_fold_open(phone, klass, name):
    """A page with each guess kept and each fold open has no fault, and Tab walks through all of it in order."""
    come_in(phone, klass, 1)
    open_page(phone, klass, name)
    heading = phone.get_by_role("heading", level=1)
    assert phone.title() == heading.inner_text()
    assert phone.locator("html").get_attribute("lang") == "en"
    while phone.evaluate(OPEN):
        phone.evaluate(QUIET)
    folds = phone.locator(".gl-fold > .mod-active[aria-expanded=true]").count()
    assert folds > 5 or name == PAGES[0]
    assert "¶" not in phone.locator("body").inner_text()
    assert phone.get_by_text(ENGLISH["page.choose_plot"]).count() == 0
    assert phone.get_by_text(ENGLISH["page.broken"]).count() == 0
    screenshot(phone, f"served_open_{name}")
    assert faults(phone) == []
    assert astray(phone) == []


def test_page_01_by_keyboard_alone(phone, klass):
    """Guess, fold and check of page 01 are reached and worked without touching; Tab goes on from there."""
    come_in(phone, klass, 3)
    open_page(phone, klass, "01_site_and_zone")

    def tab_to(found, most=12):
        for _ in range(most):
            phone.keyboard.press("Tab")
            if found.evaluate("part => part === document.activeElement"):
                return
        raise AssertionError(f"{found} was not reached by Tab")

    panel = phone.locator(".gl-panel").filter(has=phone.locator(".gl-guess")).first
    tab_to(panel.get_by_role("radio").first, most=40)
    phone.keyboard.press("ArrowDown")
    tab_to(panel.get_by_role("button", name=ENGLISH["page.keep_guess"]))
    phone.keyboard.press("Enter")
    expect(panel.locator(".gl-finding")).to_be_visible()
    assert plot.read(klass.plot(3)).guesses.keys() == {"01.place.guess"}
    tab_to(panel.get_by_role("button", name=ENGLISH["page.working"]))
    phone.keyboard.press("Space")
    expect(panel.locator(".gl-working li").first).to_be_visible()
    check = phone.locator(".gl-check").first
    tab_to(check.get_by_role("radio").first, most=40)
    phone.keyboard.press("ArrowDown")
    tab_to(check.get_by_role("button"))
    phone.keyboard.press("Enter")
    expect(check.get_by_role("status")).to_be_visible()
