"""The pages as readers meet them: in JupyterLab, offline, on a laptop and on a phone."""

import importlib.util
import json
import os
import re
from time import monotonic

import pytest
from browser_harness import open_notebook, run_all, save, screenshot, stored
from playwright.sync_api import expect

from gardenlib import plot
from gardenlib.carried import carried

PAGES = (
    "00_start_here",
    "01_site_and_zone",
    "02_soil",
    "03_beds",
    "04_sowing_calendar",
    "05_pests",
    "06_harvest_and_storage",
    "07_season_plan",
)
# Each page takes a quarter of a minute; all of them are tried where GARDENLIB_BROWSER is "all".
EVERY = os.environ.get("GARDENLIB_BROWSER") == "all"
WIDE_PAGES = PAGES if EVERY else ("03_beds",)
PHONE_PAGES = PAGES if EVERY else ("02_soil", "07_season_plan")
GUESSES = {
    "00.cold.guess": "some",
    "01.place.guess": "5",
    "01.risk.guess": "5",
    "02.feel.guess": "coarse",
    "02.lime.guess": "none",
    "03.count.guess": "same",
    "03.lines.guess": "mean",
    "04.crop.guess": "before",
    "04.list.guess": "14",
    "05.when.guess": "near",
    "05.look.guess": "25",
    "06.much.guess": "each",
    "06.keep.guess": "weeks",
    "07.plan.guess": "half",
    "07.replay.guess": "most",
}
TODAY = "2027-02-15"
# All cells stand in the document at once, as they do when a page is printed.
WHOLE = """() => { const content = window.jupyterapp.shell.currentWidget.content;
  content.notebookConfig = {...content.notebookConfig, windowingMode: 'none'}; }"""


# What sticks out of a phone's 360 px.
TOO_WIDE = """() => [...document.querySelectorAll('.jp-Notebook :is(.jupyter-widgets, svg[role=img], p)')]
  .filter(e => e.offsetParent !== null && e.getBoundingClientRect().right > 360.5)
  .map(e => e.outerHTML.slice(0, 120))"""


TARGETS = ".jupyter-button, .widget-dropdown select, .widget-text input, .widget-radio-box label, summary"
# What is too low for a thumb.
TOO_SMALL = f"""() => [...document.querySelectorAll('.jp-OutputArea :is({TARGETS})')]
  .filter(e => e.offsetParent !== null && e.getBoundingClientRect().height < 44)
  .map(e => e.outerHTML.slice(0, 120))"""
FEWEST_FOLDS = {"00_start_here": 0, "01_site_and_zone": 6, "02_soil": 9, "03_beds": 6, "04_sowing_calendar": 6}


def make_demo():
    """Load the demo's own script."""
    spec = importlib.util.spec_from_file_location("make_demo", carried("data_demo") / "make_demo.py")
    script = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(script)
    return script


def make_plot(path, eat, guesses=GUESSES):
    """Write a plot file with crops and guesses."""
    opened = plot.new(path)
    opened = plot.update(path, "household", {"people": 2, "eat": eat}, seen_revision=opened.revision)
    for question, guess in guesses.items():
        opened = plot.update(path, "guesses", {question: guess}, seen_revision=opened.revision)


@pytest.fixture
def copy_of(folder, request):
    """Give a way to lay a page with a plot file of its own into the served folder."""

    def make(name, eat=("cabbage_main", "lettuce_leaf", "tomato"), guesses=GUESSES):
        stem = f"{request.node.name.split('[')[0]}_{name}"
        plot_file = folder / f"{stem}.json"
        make_plot(plot_file, [{"crop": crop} for crop in eat], guesses)
        book = json.loads((folder / f"{name}.ipynb").read_text("utf-8"))
        for cell in book["cells"]:
            if cell["id"] == "parameters":
                cell["source"] = [f"plot_file, class_folder, today = {plot_file.name!r}, 'demo_class', {TODAY!r}"]
        (folder / f"{stem}.ipynb").write_text(json.dumps(book), "utf-8")
        return f"{stem}.ipynb", plot_file

    return make


def run(page, lab, name):
    """Open a page, run it, and lay all of it out."""
    open_notebook(page, lab, name)
    page.evaluate(WHOLE)
    assert run_all(page) == []
    page.wait_for_timeout(300)


def words_on(page) -> str:
    """Read all that the outputs of the page show."""
    return " ".join(page.locator(".jp-OutputArea").all_inner_texts())


def tab_to(page, words, most=8):
    """Press Tab until the part with these words has the focus."""
    for _ in range(most):
        page.keyboard.press("Tab")
        if words in page.evaluate("document.activeElement.innerText || ''"):
            return
    raise AssertionError(f"{words} was not reached by Tab")


@pytest.mark.parametrize("name", WIDE_PAGES)
def test_page_runs_offline_without_a_complaint(page, lab, copy_of, name):
    """Each page runs with the network cut; every panel shows its finding once and nothing has broken."""
    notebook, _ = copy_of(name)
    run(page, lab, notebook)
    assert "Something broke" not in words_on(page)
    findings = page.locator(".gl-panel .gl-finding:visible")
    assert findings.count() >= 2
    assert page.locator(".gl-stored:visible").count() == 0
    assert page.complaints == []
    screenshot(page, f"{name}_wide")


@pytest.mark.parametrize("name", PHONE_PAGES)
def test_page_fits_a_phone_with_every_fold_open(phone, lab, copy_of, name):
    """At 360 px nothing sticks out sideways, what one taps is at least 44 px high, and each fold opens offline."""
    notebook, _ = copy_of(name, guesses=make_demo().GUESSES)
    run(phone, lab, notebook)
    assert phone.evaluate(TOO_WIDE) == []
    assert phone.evaluate(TOO_SMALL) == []
    screenshot(phone, f"{name}_phone")
    folds = phone.get_by_role("button", name=re.compile("More:"))
    count = folds.count()
    assert count >= FEWEST_FOLDS.get(name, 3)
    for i in range(count):
        folds.nth(i).click()
        expect(folds.nth(i)).to_contain_text("−")
    phone.wait_for_function("window.jupyterapp.shell.currentWidget.sessionContext.session.kernel.status === 'idle'")
    phone.wait_for_timeout(1000)
    assert "Something broke" not in words_on(phone)
    assert phone.evaluate(TOO_WIDE) == []
    assert phone.evaluate(TOO_SMALL) == []
    assert phone.complaints == []


def test_page_01_by_keyboard_alone(page, lab, copy_of):
    """Guess, picture, number and fold of page 01 are reached and worked without a mouse."""
    notebook, plot_file = copy_of("01_site_and_zone", guesses={"01.place.guess": "5"})
    run(page, lab, notebook)
    assert page.locator(".gl-panel svg[role=img]:visible").count() == 0
    page.locator(".gl-panel").nth(1).locator("input[type=radio]").first.focus()
    page.keyboard.press("ArrowDown")
    tab_to(page, "Keep my guess")
    page.keyboard.press("Enter")
    picture = page.locator(".gl-panel svg[role=img]:visible")
    expect(picture).to_have_count(1)
    assert plot.read(plot_file).guesses["01.risk.guess"] == "5"
    number = page.get_by_label("Bad springs you accept, out of 10")
    before = page.locator(".gl-panel .gl-finding").last.inner_text()
    number.focus()
    page.keyboard.press("ArrowUp")
    expect(page.locator(".gl-panel .gl-finding").last).not_to_have_text(before)
    tab_to(page, "The working")
    page.keyboard.press("Enter")
    expect(page.locator(".gl-working li").first).to_be_visible()
    assert plot.read(plot_file).answers["01.risk"]["controls"]["springs"] == 2


def test_closing_and_opening_again_loses_nothing(page, lab, copy_of):
    """After a reload and a fresh run each control and answer is as it was left."""
    notebook, _ = copy_of("01_site_and_zone")
    run(page, lab, notebook)
    number = page.get_by_label("Bad springs you accept, out of 10")
    number.fill("3")
    number.press("Tab")
    expect(page.locator(".gl-panel .gl-finding").last).to_contain_text("In 3 of 10 springs")
    check = page.locator(".gl-check").first
    check.locator("input[type=radio]").first.check()
    check.get_by_role("button").click()
    expect(check.get_by_role("status")).to_contain_text("Look again")
    page.evaluate("window.jupyterapp.shell.currentWidget.sessionContext.session.kernel.restart()")
    run(page, lab, notebook)
    expect(page.get_by_label("Bad springs you accept, out of 10")).to_have_value("3")
    expect(page.locator(".gl-check").first.get_by_role("status")).to_contain_text("Look again")


def test_running_page_shows_nothing_of_an_earlier_plot(page, lab, copy_of, folder):
    """After another plot is opened on a running page, neither the page nor its saved file holds a word of the first."""
    notebook, _ = copy_of("04_sowing_calendar", eat=("tomato", "pepper", "basil"))
    make_plot(folder / "the_other.json", [{"crop": crop} for crop in ("kale", "radish", "beet")])
    run(page, lab, notebook)
    assert "basil" in words_on(page).lower()
    page.get_by_role("button", name="Open another plot").click()
    page.get_by_label("Open another plot").select_option("the_other.json")
    page.get_by_role("button", name="Open it").click()
    expect(page.locator(".gl-panel .gl-finding").first).to_contain_text("kale")
    page.wait_for_function(
        """() => ![...document.querySelectorAll('.gl-panel .gl-figure, .gl-check, .gl-guess')]
        .map(e => e.innerText.toLowerCase()).some(text => text.includes('basil') || text.includes('pepper'))""",
        timeout=5000,
    )
    page.wait_for_function("window.jupyterapp.shell.currentWidget.sessionContext.session.kernel.status === 'idle'")
    page.wait_for_timeout(1500)
    save(page)
    page.wait_for_timeout(500)
    kept = stored(folder, notebook)
    assert "kale" in kept
    assert "basil" not in kept, [kept[m.start() - 200 : m.end() + 60] for m in re.finditer("basil", kept)]


def test_saved_copy_from_elsewhere_still_shows_findings(page, lab, copy_of, folder):
    """A saved page that is opened untrusted and not run shows its findings and numbers in words."""
    notebook, _ = copy_of("04_sowing_calendar")
    run(page, lab, notebook)
    save(page)
    until = monotonic() + 20
    while "Set out" not in stored(folder, notebook):
        assert monotonic() < until, "the page was not saved"
        page.wait_for_timeout(200)
    book = json.loads((folder / notebook).read_text("utf-8"))
    for cell in book["cells"]:
        cell.setdefault("metadata", {})["came"] = "from elsewhere"
        for output in cell.get("outputs", []):
            output.setdefault("metadata", {})["came"] = "from elsewhere"
    (folder / f"sent_{notebook}").write_text(json.dumps(book), "utf-8")
    open_notebook(page, lab, f"sent_{notebook}")
    page.evaluate(WHOLE)
    expect(page.locator(".jp-OutputArea").filter(has_text="Set out").first).to_be_visible()
    assert "Error displaying widget" not in words_on(page)


def test_own_station_file_by_hand(page, lab, copy_of, folder):
    """A reader opens the fold, chooses a station file, and the page's dates come from it."""
    notebook, plot_file = copy_of("01_site_and_zone")
    run(page, lab, notebook)
    page.get_by_role("button", name="use my own station file").click()
    form = page.locator(".gl-form").first
    with page.expect_file_chooser() as chooser:
        form.get_by_role("button", name="Station file").click()
    chooser.value.set_files(folder / "demo_class" / "stations" / "invented_pellowby_daily.csv")
    expect(form.get_by_role("button", name="Station file")).to_contain_text("1")
    form.get_by_role("button", name="Save").click()
    expect(form.get_by_role("status")).to_contain_text("Coldest day")
    assert plot.read(plot_file).site.way == "file"


def test_printed_page_leaves_controls_out(page, lab, copy_of):
    """On paper the controls are gone, findings and pictures stay."""
    notebook, _ = copy_of("01_site_and_zone")
    run(page, lab, notebook)
    page.emulate_media(media="print")
    assert page.locator(".jp-OutputArea .widget-dropdown:visible").count() == 0
    assert page.locator(".jp-OutputArea .jupyter-button:visible").count() == 0
    expect(page.locator(".gl-panel .gl-finding:visible").first).to_be_visible()
    assert page.locator(".gl-panel svg[role=img]:visible").count() >= 1
